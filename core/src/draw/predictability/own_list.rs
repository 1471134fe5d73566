//! How guessable a list of directions is that somebody made up or copied from an old tape. It is judged by one
//! guesser that is fixed in advance, so that its share has an honest interval.

use rand::Rng;

use super::estimators::{Estimator, Score};
use super::interval::{Interval, chance_of_at_least};
use super::rule::Rule;
use crate::draw::schedule::order::Streak;
use crate::units::Millis;

mod habit;
mod json;
mod list_file;
mod own_page;

pub use habit::guess_by_habit;
pub use list_file::{List, ListError};

/// Waits before the first brace is placed \[judgment: fewer show no habit\].
const WAITS_TO_LEARN: usize = 5;

/// The width of the brace.
const BRACE: Millis = Millis(500);

/// A list that a person wrote, and what was found in it.
#[derive(Debug, Clone)]
pub struct OwnList<'a> {
    list: &'a List,
    score: Score,
    app: AppLists,
    estimators: Vec<(Estimator, Score)>,
    braces: Option<Score>,
}

/// What the same guesser does to lists that the app draws, as long and over as many directions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AppLists {
    /// How often one direction may come in a row: the default for so many directions.
    pub longest_streak: u8,
    /// The share that the best guesser names right who knows the rules, in the long run.
    pub rule_knowing_rate: f64,
    /// How many lists were drawn.
    pub lists: usize,
    /// The mean share named right.
    pub mean: f64,
    /// Of 100 lists, 95 lie between.
    pub range: (f64, f64),
}

impl<'a> OwnList<'a> {
    /// Judges a list; the lists of the app that it is compared with are drawn from `rng`.
    pub fn judge(list: &'a List, rng: &mut impl Rng) -> Self {
        let kinds = list.names().len() as u8;
        let judged = |estimator: Estimator| Some((estimator, estimator.judge(list.symbols(), kinds)?));
        Self {
            list,
            score: guess_by_habit(list.symbols(), kinds),
            app: AppLists::compare(list.symbols().len(), kinds, rng),
            estimators: Estimator::ALL.into_iter().filter_map(judged).collect(),
            braces: list.waits().map(|waits| catch_by_habit(&waits)),
        }
    }

    /// The share of directions that the guesser named right.
    pub fn hits(&self) -> Interval {
        Interval::of(self.score.hits(), self.score.guesses())
    }

    /// The chance of this many hits or more if every guess were random.
    pub fn guess_p_value(&self) -> f64 {
        chance_of_at_least(self.score.hits(), self.score.guesses(), self.chance())
    }

    /// The share that chance names right.
    pub fn chance(&self) -> f64 {
        1.0 / self.list.names().len() as f64
    }

    /// The share of steps that call the same direction again.
    pub fn repeats(&self) -> Interval {
        let symbols = self.list.symbols();
        Interval::of(symbols.windows(2).filter(|pair| pair[0] == pair[1]).count(), symbols.len() - 1)
    }

    /// The chance of a number of repeats this far off, on either side, in a random list.
    pub fn repeats_p_value(&self) -> f64 {
        let Interval { hits, of, .. } = self.repeats();
        let few = 1.0 - chance_of_at_least(hits + 1, of, self.chance());
        let many = chance_of_at_least(hits, of, self.chance());
        (2.0 * few.min(many)).min(1.0)
    }

    /// The share named right by always betting on a repeat, or never, whichever is better.
    pub fn repeat_guess_rate(&self) -> f64 {
        let repeats = self.repeats().share;
        let others = self.list.names().len() as f64 - 1.0;
        if others > 0.0 { repeats.max((1.0 - repeats) / others) } else { 1.0 }
    }

    /// The app's own lists, for comparison.
    pub fn app(&self) -> AppLists {
        self.app
    }

    /// The share of calls caught by a brace of half a second, placed where most earlier waits were; `None` without times, or
    /// with too few of them.
    pub fn catches(&self) -> Option<Interval> {
        let score = self.braces.filter(|score| score.guesses() > 0)?;
        Some(Interval::of(score.hits(), score.guesses()))
    }
}

impl AppLists {
    fn compare(length: usize, kinds: u8, rng: &mut impl Rng) -> Self {
        /// Enough lists for two digits, and not more work than a second's.
        const MOST_LISTS: usize = 1_000;
        const MOST_CALLS: usize = 2_000_000;
        let longest_streak = if kinds == 2 { 3 } else { 2 };
        let weights = vec![1; usize::from(kinds)];
        let longest = (kinds > 1).then_some(longest_streak);
        let lists = (MOST_CALLS / length).clamp(40, MOST_LISTS);
        let mut shares: Vec<f64> = (0..lists)
            .map(|_| {
                let mut streak = Streak::default();
                let drawn: Vec<u8> = (0..length).map(|_| streak.next(&weights, longest, rng) as u8).collect();
                guess_by_habit(&drawn, kinds).hit_rate()
            })
            .collect();
        shares.sort_by(f64::total_cmp);
        let at = |share: f64| shares[((lists - 1) as f64 * share).round() as usize];
        Self {
            longest_streak,
            rule_knowing_rate: Rule::Open { weights: &weights, longest }.long_run_hits().unwrap_or(1.0),
            lists,
            mean: shares.iter().sum::<f64>() / lists as f64,
            range: (at(0.025), at(0.975)),
        }
    }
}

/// Places a brace where most waits so far would have been caught, the middle of all such places, and looks whether it
/// catches the next.
fn catch_by_habit(waits: &[Millis]) -> Score {
    let mut score = Score::new(u8::MAX);
    let mut sorted: Vec<Millis> = Vec::with_capacity(waits.len());
    for wait in waits {
        if sorted.len() >= WAITS_TO_LEARN {
            let after = best_brace(&sorted);
            score.add(*wait >= after && *wait < after + BRACE);
        }
        let place = sorted.partition_point(|other| other <= wait);
        sorted.insert(place, *wait);
    }
    score
}

/// Where a brace catches the most of these waits: centered on those that it catches.
fn best_brace(sorted: &[Millis]) -> Millis {
    let (mut best, mut caught, mut end) = (Millis(0), 0, 0);
    for (first, from) in sorted.iter().enumerate() {
        while end < sorted.len() && sorted[end] < *from + BRACE {
            end += 1;
        }
        if end - first > caught {
            caught = end - first;
            let spare = BRACE - (sorted[end - 1] - *from) - Millis(1);
            best = *from - Millis(spare.0 / 2);
        }
    }
    best
}

#[cfg(test)]
mod test;
