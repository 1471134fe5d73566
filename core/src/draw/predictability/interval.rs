//! How far a counted share may be from the true one: exact binomial intervals and tails, for few trials as well as
//! for many.

/// A share that was counted, and where the true one lies in 95 of 100 such counts (Clopper and Pearson 1934).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// How often it happened.
    pub hits: usize,
    /// The number of trials.
    pub of: usize,
    /// `hits` over `of`; 0 without trials.
    pub share: f64,
    /// The lower end of the interval.
    pub low: f64,
    /// The upper end of the interval.
    pub high: f64,
}

/// Half of what the interval leaves out.
const TAIL: f64 = 0.025;

impl Interval {
    /// The interval for `hits` of `of` trials; without trials it is 0 to 1.
    ///
    /// ```
    /// use counterpoise_core::draw::predictability::Interval;
    /// let few = Interval::of(3, 10);
    /// assert!((few.low - 0.0667).abs() < 1e-4 && (few.high - 0.6525).abs() < 1e-4);
    /// ```
    pub fn of(hits: usize, of: usize) -> Self {
        if of == 0 {
            return Self { hits, of, share: 0.0, low: 0.0, high: 1.0 };
        }
        let low = match hits {
            0 => 0.0,
            _ => crossing(|p| chance_of_at_least(hits, of, p) >= TAIL),
        };
        let high =
            if hits == of { 1.0 } else { crossing(|p| 1.0 - chance_of_at_least(hits + 1, of, p) < TAIL) };
        Self { hits, of, share: hits as f64 / of as f64, low, high }
    }
}

/// The chance of at least `hits` hits in `of` independent trials with chance `p`.
pub fn chance_of_at_least(hits: usize, of: usize, p: f64) -> f64 {
    if hits == 0 || p >= 1.0 {
        return 1.0;
    }
    if p <= 0.0 || hits > of {
        return 0.0;
    }
    // The tail of a binomial distribution is the regularized incomplete beta function.
    statrs::function::beta::beta_reg(hits as f64, (of - hits + 1) as f64, p)
}

/// The chance from which on `is_past` holds.
fn crossing(is_past: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if is_past(middle) { high = middle } else { low = middle }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod test {
    use statrs::distribution::{Binomial, DiscreteCDF};

    use super::*;

    /// `SciPy` 1.17: `beta.ppf(.025, x, n - x + 1)` and `beta.ppf(.975, x + 1, n - x)`.
    #[test]
    fn intervals_are_those_of_scipys_beta_quantiles() {
        for (hits, of, low, high) in SCIPY {
            let found = Interval::of(hits, of);
            assert!((found.low - low).abs() < 1e-9 && (found.high - high).abs() < 1e-9, "{found:?}");
        }
    }

    const SCIPY: [(usize, usize, f64, f64); 9] = [
        (0, 12, 0.000_000_000_000, 0.264_648_469_397),
        (3, 10, 0.066_739_511_178, 0.652_452_850_060),
        (11, 39, 0.150_014_130_471, 0.448_736_323_395),
        (25, 100, 0.168_779_738_099, 0.346_552_495_759),
        (99, 99, 0.963_424_255_017, 1.000_000_000_000),
        (26_668, 99_999, 0.263_943_561_580, 0.269_435_310_518),
        (266_680, 999_990, 0.265_816_093_965, 0.267_550_591_317),
        (500, 1_000_000, 0.000_457_138_149, 0.000_545_796_766),
        (499_999, 1_000_000, 0.499_018_519_198, 0.500_979_480_808),
    ];

    #[test]
    fn tails_are_those_of_the_binomial_distribution() {
        for (of, p) in [(1, 0.5), (7, 0.25), (40, 0.2), (1_000, 0.3333), (50_000, 0.26)] {
            let binomial = Binomial::new(p, of).unwrap();
            let mean = of as f64 * p;
            for hits in [0.0, 0.5 * mean, mean, mean + 2.0 * mean.sqrt(), of as f64].map(|hits| hits as u64) {
                let expected = if hits == 0 { 1.0 } else { binomial.sf(hits - 1) };
                let found = chance_of_at_least(hits as usize, of as usize, p);
                assert!((found - expected).abs() < 1e-9, "{hits} of {of}: {found} {expected}");
            }
        }
    }
}
