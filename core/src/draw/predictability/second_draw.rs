//! Gaps drawn a second way, by a library of distributions, and how far the two ways differ. What a practice draws is
//! always the table's: the library's logarithm may differ in its last digit from machine to machine.

use rand_distr::{Distribution, Exp, Uniform};
use serde::Serialize;

use crate::draw::schedule::Seed;
use crate::draw::schedule::gap_draw;
use crate::plan::gaps::{GapTable, Shape};

/// How many gaps are drawn each way.
const DRAWS: u32 = 100_000;

/// The chance that two ways that draw alike are said to differ.
const FALSE_ALARM: f64 = 1e-6;

/// The distance between two samples of gaps, one drawn by the table and one by the library.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SecondDraw {
    /// Gaps drawn each way.
    pub draws: u32,
    /// The largest difference between the two distributions, 0 to 1 (Smirnov's statistic).
    pub difference: f64,
    /// The difference from which on the two are said to differ.
    pub limit: f64,
    /// The chance that the limit is reached although both draw alike.
    pub false_alarm: f64,
}

impl SecondDraw {
    /// Draws the gaps of drill number `drill`, from 0, both ways from streams of this seed.
    ///
    /// ```
    /// use counterpoise_core::draw::predictability::SecondDraw;
    /// use counterpoise_core::draw::schedule::Seed;
    /// use counterpoise_core::plan::gaps::{GapTable, Shape};
    /// use counterpoise_core::units::Millis;
    /// let table = GapTable::over(Millis(5_000), Millis(15_000), Shape::Even);
    /// let drawn = SecondDraw::of(&table, Seed::from_bytes([7; 32]), 0);
    /// assert!(drawn.agrees() && drawn.difference > 0.0);
    /// ```
    pub fn of(table: &GapTable, seed: Seed, drill: u8) -> Self {
        let [mut by_table, mut by_library] = seed.comparison(drill);
        let mut gaps = Gaps::of(table);
        Self::between(
            table,
            DRAWS,
            || (gap_draw::draw(table, &mut by_table) - table.least()).0,
            || gaps.draw(&mut by_library),
        )
    }

    /// Whether the two ways cannot be told apart.
    pub fn agrees(&self) -> bool {
        self.difference < self.limit
    }

    /// The largest difference between the two running totals, each over the slots of the table.
    fn between(
        table: &GapTable,
        draws: u32,
        mut one: impl FnMut() -> u32,
        mut other: impl FnMut() -> u32,
    ) -> Self {
        let mut surplus = vec![0_i32; table.slots() as usize];
        for _ in 0..draws {
            surplus[one() as usize] += 1;
            surplus[other() as usize] -= 1;
        }
        let mut running = 0;
        let distances = surplus.iter().map(|slot| {
            running += slot;
            running.unsigned_abs()
        });
        let difference = f64::from(distances.max().unwrap_or(0)) / f64::from(draws);
        // Two samples of one distribution are farther apart than this with the chance of a false alarm (Smirnov 1939,
        // in Kolmogorov's limit of large samples; from memory, and a test holds it against simulated samples).
        let limit = ((2.0 / FALSE_ALARM).ln() / 2.0 * 2.0 / f64::from(draws)).sqrt();
        Self { draws, difference, limit, false_alarm: FALSE_ALARM }
    }
}

/// The library's gaps, as slots of a table.
enum Gaps {
    /// Exponential; what falls outside the range is drawn again.
    Exponential { library: Exp<f64>, slots: f64 },
    /// Uniform over the range.
    Even(Uniform<f64>),
}

impl Gaps {
    fn of(table: &GapTable) -> Self {
        let slots = f64::from(table.slots());
        match table.shape() {
            Shape::Flat { rate_thousandths } => {
                let rate = f64::from(rate_thousandths) / 1000.0 / slots;
                Self::Exponential {
                    library: Exp::new(rate).expect("the rate is positive by its limit"),
                    slots,
                }
            }
            Shape::Even => Self::Even(Uniform::new(0.0, slots).expect("a range of gaps is not empty")),
        }
    }

    fn draw(&mut self, rng: &mut impl rand::Rng) -> u32 {
        match self {
            Self::Exponential { library, slots } => loop {
                let slot = library.sample(rng);
                if slot < *slots {
                    break slot as u32;
                }
            },
            Self::Even(library) => library.sample(rng) as u32,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Millis;

    fn table(shape: Shape) -> GapTable {
        GapTable::over(Millis(5_000), Millis(15_000), shape)
    }

    const FLAT: Shape = Shape::Flat { rate_thousandths: 1_250 };

    #[test]
    fn both_shapes_agree_with_the_library_at_both_ends_of_their_rate() {
        for shape in [
            FLAT,
            Shape::Even,
            Shape::Flat { rate_thousandths: 100 },
            Shape::Flat { rate_thousandths: 5_000 },
        ] {
            for drill in 0..4 {
                let found = SecondDraw::of(&table(shape), Seed::from_bytes([31; 32]), drill);
                assert!(found.agrees() && found.difference > 0.0, "{shape:?} {found:?}");
            }
        }
    }

    /// A table whose rate is wrong by a fifth, or that forgets its shape, is told apart.
    #[test]
    fn a_wrong_shape_is_found() {
        for (drawn, meant) in
            [(Shape::Even, FLAT), (FLAT, Shape::Even), (Shape::Flat { rate_thousandths: 1_500 }, FLAT)]
        {
            let [mut by_table, mut by_library] = Seed::from_bytes([32; 32]).comparison(0);
            let (drawn, mut meant) = (table(drawn), Gaps::of(&table(meant)));
            let found = SecondDraw::between(
                &drawn,
                DRAWS,
                || (gap_draw::draw(&drawn, &mut by_table) - drawn.least()).0,
                || meant.draw(&mut by_library),
            );
            assert!(!found.agrees(), "{found:?}");
        }
    }

    /// sqrt(-ln(alpha / 2) / 2 x (n + m) / (n m)) for n = m = 100,000 and alpha = 1e-6, worked out by hand:
    /// 2.6934 x sqrt(2 / 100,000) = 0.012045.
    #[test]
    fn the_limit_is_that_of_two_large_samples() {
        let found = SecondDraw::of(&table(FLAT), Seed::from_bytes([33; 32]), 0);
        assert!((found.limit - 0.012_045).abs() < 1e-6, "{}", found.limit);
    }

    /// Where both samples come from one distribution, 1.3581 x sqrt(2 / n) is passed by 5 % of pairs (two-sample table, from
    /// memory) [derived from the same formula]. 1,000 pairs of 2,000 gaps; five standard errors.
    #[test]
    fn the_formula_holds_for_simulated_samples() {
        let (even, draws, pairs) = (table(Shape::Even), 2_000, 1_000);
        let [mut one, mut other] = Seed::from_bytes([34; 32]).comparison(0);
        let (mut gaps, mut passed) = (Gaps::of(&even), 0.0);
        for _ in 0..pairs {
            let found = SecondDraw::between(
                &even,
                draws,
                || (gap_draw::draw(&even, &mut one) - even.least()).0,
                || gaps.draw(&mut other),
            );
            passed += f64::from(u8::from(found.difference > 1.3581 * (2.0 / f64::from(draws)).sqrt()));
        }
        let (expected, pairs) = (0.05, f64::from(pairs));
        let error = 5.0 * (expected * (1.0 - expected) / pairs).sqrt();
        assert!((passed / pairs - expected).abs() < error, "{passed} of {pairs}");
    }
}
