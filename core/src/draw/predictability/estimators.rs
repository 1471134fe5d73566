//! How well a guesser could do that knows no rule and only learns from earlier calls: the four prediction
//! estimators of NIST SP 800-90B (2018), 6.3.7 to 6.3.10. A guesser that knows the rules is in `rule`.
//!
//! Where the standard leaves something open, this does what NIST's own program does (`SP800-90B_EntropyAssessment`,
//! public), so that both count the same hits: ties, limits of the dictionaries, and which misses end a run.

mod dictionary;
mod lag;
mod markov;
mod score;
mod window;

pub use score::Score;

/// A guesser that learns as it goes. Each is judged by how many symbols it names right before it sees them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Estimator {
    /// The most common of the last 63, 255, 1,023 or 4,095 symbols, whichever window has been right most often.
    MultiMcw,
    /// What came 1 to 128 symbols ago, whichever distance has been right most often.
    Lag,
    /// What most often followed the last 1 to 16 symbols, whichever length has been right most often.
    MultiMmc,
    /// What most often followed any of the last 1 to 16 symbols, kept in a dictionary of 65,536 entries.
    Lz78y,
}

impl Estimator {
    /// All four, in the order of the standard.
    pub const ALL: [Self; 4] = [Self::MultiMcw, Self::Lag, Self::MultiMmc, Self::Lz78y];

    /// The name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::MultiMcw => "multimcw",
            Self::Lag => "lag",
            Self::MultiMmc => "multimmc",
            Self::Lz78y => "lz78y",
        }
    }

    /// What it guesses from, in a few words.
    pub const fn description(self) -> &'static str {
        match self {
            Self::MultiMcw => "most common lately",
            Self::Lag => "as some calls ago",
            Self::MultiMmc => "what followed before",
            Self::Lz78y => "what followed, by dictionary",
        }
    }

    /// How many symbols it must have: with fewer it makes no guess at all.
    pub const fn least(self) -> usize {
        match self {
            Self::MultiMcw => WINDOWS[0] + 1,
            Self::Lag => 2,
            Self::MultiMmc => 3,
            Self::Lz78y => LONGEST + 2,
        }
    }

    /// Its score over a sequence of symbols below `kinds`; `None` if there are fewer than [`Estimator::least`].
    ///
    /// ```
    /// use counterpoise_core::draw::predictability::Estimator;
    /// let turns: Vec<u8> = (0..4_000).map(|cue| cue % 4).map(|cue| cue as u8).collect();
    /// let score = Estimator::Lag.judge(&turns, 4).unwrap();
    /// assert!(score.hit_rate() > 0.99, "a list that takes turns is soon learned");
    /// ```
    ///
    /// # Panics
    /// If a symbol is not below `kinds`.
    pub fn judge(self, symbols: &[u8], kinds: u8) -> Option<Score> {
        assert!(symbols.iter().all(|&symbol| symbol < kinds), "every symbol is below the number of kinds");
        if symbols.len() < self.least() {
            return None;
        }
        Some(match self {
            Self::MultiMcw => window::judge(symbols, kinds, &WINDOWS),
            Self::Lag => lag::judge(symbols, kinds, LAGS),
            Self::MultiMmc => markov::judge(symbols, kinds, LONGEST, MARKOV_ENTRIES),
            Self::Lz78y => dictionary::judge(symbols, kinds, LONGEST, DICTIONARY_ENTRIES),
        })
    }
}

/// The windows of `MultiMCW` (6.3.7 \[read in NIST's program\]).
const WINDOWS: [usize; 4] = [63, 255, 1023, 4095];
/// The distances of Lag (6.3.8).
const LAGS: usize = 128;
/// The longest context of `MultiMMC` and LZ78Y (6.3.9, 6.3.10).
const LONGEST: usize = 16;
/// Pairs of a context and what followed it, for each length of context (6.3.9).
const MARKOV_ENTRIES: usize = 100_000;
/// Contexts in the dictionary (6.3.10).
const DICTIONARY_ENTRIES: usize = 65_536;

/// No entry, in a table of places.
const NONE: u32 = u32::MAX;

/// What followed a context so far, best first: the most frequent, and among equals the greatest.
#[derive(Debug, Clone, Copy, Default)]
struct Best {
    symbol: u8,
    count: u32,
}

impl Best {
    /// Takes note that `symbol` has now followed `count` times.
    fn note(&mut self, symbol: u8, count: u32) {
        if count > self.count || (count == self.count && symbol > self.symbol) {
            *self = Self { symbol, count };
        }
    }
}

#[cfg(test)]
mod test;
