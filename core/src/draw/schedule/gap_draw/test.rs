use proptest::prelude::*;
use rand_distr::{Distribution, Exp};
use statrs::distribution::{ContinuousCDF, Exp as ExpReference};

use super::*;
use crate::draw::schedule::Seed;
use crate::plan::gaps::Shape;

/// Gaps of 5 to 15 s. A rate x range of 1, 1.5, 2 is q = .10, .15, .20 a second.
fn from_5_to_15(shape: Shape) -> GapTable {
    GapTable::over(Millis(5_000), Millis(15_000), shape)
}

fn flat(rate_thousandths: u32) -> Shape {
    Shape::Flat { rate_thousandths }
}

/// The gap in seconds at which the running chance reaches `level`, and the hazard there, in chances a second.
fn quantile_and_hazard(table: &GapTable, level: f64) -> (f64, f64) {
    let mut before = 0.0;
    for (slot, chance) in table.chances().enumerate() {
        if before + chance >= level {
            let gap = f64::from(table.least().0 + slot as u32) / 1000.0;
            return (gap, chance * 1000.0 / (1.0 - before));
        }
        before += chance;
    }
    unreachable!("the chances add up to 1")
}

fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected} within {tolerance}");
}

#[test]
fn the_first_weights_follow_the_recipe() {
    let table = GapTable::over(Millis(4_000), Millis(4_003), flat(900));
    // By hand: 2^40; less floor(2^40 x 900 / 3000); less floor of that x 900 / 3000.
    assert_eq!(table.weights().collect::<Vec<_>>(), [1_099_511_627_776, 769_658_139_444, 538_760_697_611]);
    assert_eq!(table.total(), 2_407_930_464_831);
    let even = GapTable::over(Millis(4_000), Millis(4_003), Shape::Even);
    assert_eq!(even.weights().collect::<Vec<_>>(), [1, 1, 1]);
}

/// Quantiles at 5, 25, 50, 75, 95 % of an exponential distribution cut off to [5, 15] s: 5 - ln(1 - p (1 - e^-r)) 10 / r
/// (`scripts/reference.py` [derived]);
/// a slot is 1 ms wide, so the table may lie that much below, and half a millisecond is left for rounding.
#[test]
fn quantiles_of_a_flat_table_are_those_of_a_truncated_exponential() {
    let expected = [
        (1_000, [5.3212, 6.7201, 8.7989, 11.4263, 14.1758]),
        (1_500, [5.2641, 6.4396, 8.2782, 10.8256, 13.9301]),
        (2_000, [5.2210, 6.2178, 7.8311, 10.2277, 13.6139]),
    ];
    for (rate, quantiles) in expected {
        let table = from_5_to_15(flat(rate));
        for (level, quantile) in [0.05, 0.25, 0.5, 0.75, 0.95].into_iter().zip(quantiles) {
            near(quantile_and_hazard(&table, level).0, quantile, 0.0015);
        }
    }
}

/// Mean, SD; entropy in bits (of seconds); hazard at 5 s, at the median and at 90 %; best windows of .2, .5 and 1 s:
/// the closed forms of the truncated exponential (`scripts/reference.py`) and of the uniform [derived]. The tolerance is half the last digit, and 1 % for the steep hazard at 90 %.
#[test]
fn what_a_table_gives_away_is_what_its_distribution_gives_away() {
    let rows = [
        (Shape::Even, [10.00, 2.89, 3.322], [0.100, 0.200, 1.00], [0.020, 0.050, 0.100]),
        (flat(1_000), [9.18, 2.82, 3.263], [0.158, 0.216, 0.682], [0.031, 0.077, 0.151]),
        (flat(1_500), [8.79, 2.73, 3.194], [0.193, 0.236, 0.581], [0.038, 0.093, 0.179]),
        (flat(2_000), [8.43, 2.63, 3.103], [0.231, 0.263, 0.513], [0.045, 0.110, 0.210]),
    ];
    for (shape, [mean, sd, bits], hazards, windows) in rows {
        let table = from_5_to_15(shape);
        let chances: Vec<f64> = table.chances().collect();
        let gap = |slot: usize| 5.0 + (slot as f64 + 0.5) / 1000.0;
        let over = |value: &dyn Fn(usize) -> f64| -> f64 {
            chances.iter().enumerate().map(|(slot, chance)| chance * value(slot)).sum()
        };
        let found = over(&gap);
        near(found, mean, 0.0051);
        near(over(&|slot| (gap(slot) - found).powi(2)).sqrt(), sd, 0.0051);
        near(over(&|slot| -(chances[slot] * 1000.0).log2()), bits, 0.00051);
        near(chances[0] * 1000.0, hazards[0], 0.00051);
        near(quantile_and_hazard(&table, 0.5).1, hazards[1], 0.00051);
        near(quantile_and_hazard(&table, 0.9).1, hazards[2], 0.01 * hazards[2]);
        for (width, window) in [200, 500, 1000].into_iter().zip(windows) {
            let best = chances.windows(width).map(|w| w.iter().sum::<f64>()).fold(0.0, f64::max);
            near(best, window, 0.00051);
        }
    }
}

/// Kolmogorov: the distance of `n` draws from their distribution exceeds 2.6934 / sqrt(n) with chance 1e-6
/// (`sqrt(ln(2 / 1e-6) / 2)`, Kolmogorov's limit). The reference is `statrs`' exponential, cut off at the range.
#[test]
fn draws_follow_the_truncated_exponential_of_statrs() {
    let draws = 200_000;
    let table = GapTable::over(Millis(6_100), Millis(13_700), flat(1_370));
    let reference = ExpReference::new(1.370 / 7.6).expect("the rate is positive");
    let mut rng = Seed::from_bytes([11; 32]).stream(0);
    let mut counts = vec![0_u32; 7_600];
    for _ in 0..draws {
        counts[(draw(&table, &mut rng).0 - 6_100) as usize] += 1;
    }
    let mut seen = 0;
    let mut distance = 0.0_f64;
    for (slot, count) in counts.iter().enumerate() {
        seen += count;
        let end = (slot + 1) as f64 / 1000.0;
        let expected = reference.cdf(end) / reference.cdf(7.6);
        distance = distance.max((f64::from(seen) / f64::from(draws) - expected).abs());
    }
    assert!(distance < 2.6934 / f64::from(draws).sqrt(), "distance {distance}");
}

/// The same against draws of `rand_distr`'s exponential, those beyond the range thrown away. Two samples of equal
/// size: the limit grows by sqrt 2 (Smirnov); false alarm 1e-6.
#[test]
fn draws_cannot_be_told_from_rand_distrs_exponential_cut_off() {
    let draws = 100_000;
    let table = GapTable::over(Millis(7_300), Millis(18_900), flat(1_180));
    let reference = Exp::new(1.180 / 11.6).expect("the rate is positive");
    let mut rng = Seed::from_bytes([12; 32]).stream(0);
    let mut difference = vec![0_i32; 11_600];
    for _ in 0..draws {
        difference[(draw(&table, &mut rng).0 - 7_300) as usize] += 1;
        let other = loop {
            let seconds: f64 = reference.sample(&mut rng);
            if seconds < 11.6 {
                break seconds;
            }
        };
        difference[(other * 1000.0) as usize] -= 1;
    }
    let mut running = 0;
    let worst = difference
        .iter()
        .map(|d| {
            running += d;
            running.abs()
        })
        .max()
        .expect("there are slots");
    let limit = 2.6934 * (2.0 / f64::from(draws)).sqrt();
    assert!(f64::from(worst) / f64::from(draws) < limit, "distance {worst} of {draws}");
}

#[test]
fn even_draws_reach_every_slot_equally() {
    let table = GapTable::over(Millis(4_000), Millis(4_050), Shape::Even);
    let mut rng = Seed::from_bytes([13; 32]).stream(0);
    let mut counts = [0_u32; 50];
    for _ in 0..100_000 {
        counts[(draw(&table, &mut rng).0 - 4_000) as usize] += 1;
    }
    let square: f64 = counts.iter().map(|&count| (f64::from(count) - 2_000.0).powi(2) / 2_000.0).sum();
    // Chi-square with 49 degrees of freedom exceeds 112.0 with chance 1e-6 or less [derived, statrs].
    let limit = statrs::distribution::ChiSquared::new(49.0).expect("positive").inverse_cdf(1.0 - 1e-6);
    assert!(square < limit, "{square} against {limit}");
}

/// Fixed values under a named seed: a change here is a new method.
#[test]
fn the_first_gaps_of_a_named_seed_stay_as_they_are() {
    let draw = |shape| {
        let table = GapTable::over(Millis(6_300), Millis(16_700), shape);
        let mut rng = Seed::from_bytes([1; 32]).stream(16);
        [(); 5].map(|()| draw(&table, &mut rng).0)
    };
    assert_eq!(
        [draw(flat(1_100)), draw(Shape::Even)],
        [[6490, 6391, 6343, 14435, 7477], [16197, 16492, 6829, 15259, 13409]]
    );
}

proptest! {
    #[test]
    fn a_gap_is_within_its_range(least in 1u32..20_000, slots in 1u32..40_000, rate in 0u32..6_000, seed: [u8; 32]) {
        let greatest = Millis(least + slots);
        for shape in [Shape::Even, flat(rate)] {
            let table = GapTable::over(Millis(least), greatest, shape);
            let gap = draw(&table, &mut Seed::from_bytes(seed).stream(0));
            prop_assert!(gap >= Millis(least) && gap < greatest);
        }
    }

    #[test]
    fn weights_never_rise_and_add_up(slots in 1u32..5_000, rate in 0u32..6_000) {
        let table = GapTable::over(Millis(4_000), Millis(4_000 + slots), flat(rate));
        let weights: Vec<u64> = table.weights().collect();
        prop_assert_eq!(weights.len(), slots as usize);
        prop_assert!(weights.windows(2).all(|pair| pair[0] >= pair[1]));
        prop_assert_eq!(weights.iter().sum::<u64>(), table.total());
    }
}
