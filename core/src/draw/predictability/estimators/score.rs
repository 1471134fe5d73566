//! Hits, misses and runs of a guesser, and the min-entropy they imply: SP 800-90B, 6.3.7, steps 5 to 7.

/// The 99.5 % point of the normal distribution, as the standard writes it.
const Z: f64 = 2.575_829_303_548_901;
/// The share of sequences whose longest run of hits stays below the one seen.
const RUN_CHANCE: f64 = 0.99;

/// How often a guesser was right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Score {
    kinds: u8,
    guesses: usize,
    hits: usize,
    run: usize,
    longest: usize,
}

impl Score {
    /// The score before the first guess, over symbols of so many kinds.
    pub(crate) fn new(kinds: u8) -> Self {
        Self { kinds, guesses: 0, hits: 0, run: 0, longest: 0 }
    }

    /// One guess more; a miss ends a run of hits.
    pub(crate) fn add(&mut self, hit: bool) {
        self.guesses += 1;
        if hit {
            self.hits += 1;
            self.run += 1;
            self.longest = self.longest.max(self.run);
        } else {
            self.run = 0;
        }
    }

    /// One symbol at which the guesser had nothing to say: a miss that ends no run, as in NIST's program.
    pub(crate) fn pass(&mut self) {
        self.guesses += 1;
    }

    /// How many symbols were to be guessed (N).
    pub fn guesses(&self) -> usize {
        self.guesses
    }

    /// How many were named right (C).
    pub fn hits(&self) -> usize {
        self.hits
    }

    /// The longest run of hits.
    pub fn longest_run(&self) -> usize {
        self.longest
    }

    /// The share named right, C / N.
    pub fn hit_rate(&self) -> f64 {
        self.hits as f64 / self.guesses as f64
    }

    /// The standard error of the hit rate if guesses are independent.
    pub fn standard_error(&self) -> f64 {
        let rate = self.hit_rate();
        (rate * (1.0 - rate) / self.guesses as f64).sqrt()
    }

    /// The min-entropy in bits a symbol: -log2 of the greatest of the upper bound of the hit rate, the hit rate that
    /// would explain the longest run, and 1 / kinds.
    pub fn min_entropy_bits(&self) -> f64 {
        let rate = self.hit_rate();
        let guesses = self.guesses as f64;
        let global = if self.hits == 0 {
            1.0 - (1.0 - RUN_CHANCE).powf(1.0 / guesses)
        } else {
            // One guess has no spread to be estimated from; the bound is then certainty.
            let spread = (rate * (1.0 - rate) / (guesses - 1.0)).sqrt();
            if spread.is_nan() { 1.0 } else { (rate + Z * spread).min(1.0) }
        };
        let floor = global.max(1.0 / f64::from(self.kinds));
        -floor.max(self.local(floor)).log2()
    }

    /// The chance of a hit with which no run is longer than the longest one in 99 of 100 sequences; `floor` if that
    /// one leaves more.
    fn local(&self, floor: f64) -> f64 {
        let run = self.longest as f64 + 1.0;
        let target = RUN_CHANCE.ln();
        let shorter = |p: f64| log_chance_of_no_run(p, run, self.guesses as f64);
        if floor >= 1.0 || shorter(floor) <= target {
            return floor;
        }
        let (mut low, mut high) = (floor, 1.0);
        loop {
            let middle = f64::midpoint(low, high);
            if middle <= low || middle >= high {
                return high;
            }
            if shorter(middle) > target { low = middle } else { high = middle }
        }
    }
}

/// The logarithm of the chance that `guesses` guesses, each right with chance `p`, hold no run of `run` hits (Feller,
/// An Introduction to Probability Theory I, XIII.7, as the standard has it).
fn log_chance_of_no_run(p: f64, run: f64, guesses: f64) -> f64 {
    let q = 1.0 - p;
    let mut x = 1.0;
    for _ in 0..=65 {
        let next = 1.0 + q * p.powf(run) * f64::powf(x, run + 1.0);
        if next - x <= f64::EPSILON * next {
            break;
        }
        x = next;
    }
    (1.0 - p * x).ln() - ((run + 1.0 - run * x) * q).ln() - (guesses + 1.0) * x.ln()
}

#[cfg(test)]
mod test {
    use super::*;

    /// No run of two in n fair flips: the Fibonacci numbers over 2^n (a classical count). F(12) = 144 of 2^10.
    #[test]
    fn runs_of_two_in_ten_fair_flips_are_fibonaccis() {
        let chance = log_chance_of_no_run(0.5, 2.0, 10.0).exp();
        assert!((chance - 144.0 / 1024.0).abs() < 1e-4, "{chance}");
    }

    #[test]
    fn certainty_leaves_no_entropy_and_no_hit_leaves_the_most() {
        let mut all = Score::new(4);
        let mut none = Score::new(4);
        for _ in 0..1000 {
            all.add(true);
            none.add(false);
        }
        assert!(all.min_entropy_bits().abs() < 1e-12);
        assert!((none.min_entropy_bits() - 2.0).abs() < 1e-12);
    }
}
