//! What the figures mean, in words, with the thresholds that were applied.

use std::fmt;

use super::foresight::{Drill, Foresight};
use super::learning::Learning;
use crate::units::Millis;

/// Points above chance up to which directions count as close to chance \[judgment\].
pub const CLOSE_POINTS: f64 = 3.0;
/// Points above chance above which directions count as guessable \[judgment\]: more than a streak limit alone gives
/// away with three directions or more (4.2 at most), less than coverage with slack 1 does over two sets of four
/// directions (7.3).
pub const GUESSABLE_POINTS: f64 = 6.0;
/// The share named right from which directions count as guessable, whatever chance is \[judgment\].
pub const GUESSABLE_RATE: f64 = 0.5;
/// The share of calls that one brace of half a second may catch: 9 of 100 is what the usual 5 to 15 s allow.
pub const GOOD_BRACE: f64 = 0.09;
/// From here on moments count as guessable \[judgment\].
pub const GUESSABLE_BRACE: f64 = 0.15;

/// Something that makes a drill easier to predict than necessary, and what to change.
#[derive(Debug, Clone, PartialEq)]
pub enum Caution {
    /// Only one thing is ever called.
    OneDirection {
        /// The title of the drill.
        drill: &'static str,
    },
    /// Directions are named right too often because there are two of them.
    TwoDirections {
        /// The title of the drill.
        drill: &'static str,
        /// The share named right.
        rate: f64,
    },
    /// Directions are named right too often because counting gives them away.
    Coverage {
        /// The title of the drill.
        drill: &'static str,
        /// The share named right.
        rate: f64,
        /// The share by chance.
        chance: f64,
        /// The share of the last call.
        last: f64,
    },
    /// Directions are named right too often because their weights differ or the longest streak is short.
    Directions {
        /// The title of the drill.
        drill: &'static str,
        /// The share named right.
        rate: f64,
        /// The share by chance.
        chance: f64,
    },
    /// One brace catches too many calls.
    Moments {
        /// The title of the drill.
        drill: &'static str,
        /// The share caught by a brace of half a second.
        brace: f64,
        /// Whether it is the set that is too short, not the range of gaps.
        edges: bool,
    },
}

/// Everything that deserves a second look, drill by drill.
pub fn cautions(foresight: &Foresight) -> Vec<Caution> {
    foresight.drills().iter().flat_map(of_drill).collect()
}

fn of_drill(drill: &Drill) -> Vec<Caution> {
    let which = &drill.direction;
    let (rate, chance) = (which.guess_rate, which.chance);
    let mut cautions = Vec::new();
    if which.directions == 1 {
        cautions.push(Caution::OneDirection { drill: drill.title });
    } else if rate >= GUESSABLE_RATE || (rate - chance) * 100.0 > GUESSABLE_POINTS {
        cautions.push(if which.directions == 2 {
            Caution::TwoDirections { drill: drill.title, rate }
        } else if which.covered {
            Caution::Coverage { drill: drill.title, rate, chance, last: which.last_call }
        } else {
            Caution::Directions { drill: drill.title, rate, chance }
        });
    }
    let half = Millis(500);
    let heard = &drill.moment.heard;
    let clock = if drill.moment.bounded { 0.0 } else { heard.brace_by_the_clock(half) };
    let brace = heard.all.brace(half).chance.max(clock);
    if brace > GUESSABLE_BRACE {
        let edges = drill.moment.drawn.brace(half).chance <= GUESSABLE_BRACE;
        cautions.push(Caution::Moments { drill: drill.title, brace, edges });
    }
    cautions
}

/// A share as so many of 100, with one decimal unless that is 0.
pub fn of_100(share: f64) -> String {
    let hundredths = share * 100.0;
    if hundredths > 0.0 && hundredths < 0.05 {
        "fewer than 0.1".into()
    } else {
        format!("{hundredths:.1}").trim_end_matches(".0").to_owned()
    }
}

/// The whole audit in one or two sentences, for the person who prescribes.
pub fn summary(foresight: &Foresight) -> String {
    let directions = match (foresight.guess_rate(), foresight.chance()) {
        (Some(rate), Some(chance)) => format!(
            "A guesser who knows every rule but not the seed gets {} of 100 directions right; chance is {}.",
            of_100(rate),
            of_100(chance),
        ),
        _ => "There is only one direction, so only the timing can surprise.".into(),
    };
    format!(
        "{directions} Bracing once after each call for half a second, at the best moment, catches {} of 100 calls.",
        of_100(foresight.half_second_brace()),
    )
}

/// The verdict on a drill's directions, by the thresholds above.
pub fn directions_verdict(drill: &Drill) -> &'static str {
    let points = (drill.direction.guess_rate - drill.direction.chance) * 100.0;
    if drill.direction.directions == 1 {
        "nothing to guess: there is one direction"
    } else if drill.direction.guess_rate >= GUESSABLE_RATE || points > GUESSABLE_POINTS {
        "guessable"
    } else if points > CLOSE_POINTS {
        "a little better than chance"
    } else {
        "close to chance"
    }
}

/// The verdict on a drill's timing, by the thresholds above.
pub fn moments_verdict(drill: &Drill) -> &'static str {
    let brace = drill.moment.heard.all.brace(Millis(500)).chance;
    if brace > GUESSABLE_BRACE {
        "guessable"
    } else if brace > GOOD_BRACE {
        "easier to catch than the usual gaps of 5 to 15 s"
    } else {
        "hard to catch"
    }
}

/// The scores for one drill that are better than its rules allow: none, as long as calls are drawn correctly.
pub fn leaks(drill: &Drill, learned: &[Learning]) -> Vec<Learning> {
    learned.iter().filter(|learned| learned.leaks(drill)).copied().collect()
}

impl fmt::Display for Caution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OneDirection { drill } => write!(
                f,
                "{drill}: only one thing is ever called, so only its timing can surprise. A second direction helps."
            ),
            Self::TwoDirections { drill, rate } => write!(
                f,
                "{drill}: with two directions a guesser who knows the rules gets {} of 100 right. A third direction \
                 helps most; with two, a longest streak of 4.",
                of_100(*rate)
            ),
            Self::Coverage { drill, rate, chance, last } => write!(
                f,
                "{drill}: anybody who counts gets {} of 100 directions right (chance: {}), and {} of 100 of the last ones, \
                 since each must come about equally often. More sets, more slack, or the sequence \"open\" help.",
                of_100(*rate),
                of_100(*chance),
                of_100(*last)
            ),
            Self::Directions { drill, rate, chance } => write!(
                f,
                "{drill}: a guesser who knows the rules gets {} of 100 directions right (chance: {}). More even weights, \
                 more directions or a longer streak help.",
                of_100(*rate),
                of_100(*chance)
            ),
            Self::Moments { drill, brace, edges } => {
                write!(
                    f,
                    "{drill}: one brace of half a second at the best moment catches {} of 100 calls. ",
                    of_100(*brace)
                )?;
                if *edges {
                    f.write_str("Sets are short for these gaps: longer sets help.")
                } else {
                    f.write_str("A wider range of gaps helps.")
                }
            }
        }
    }
}

#[cfg(test)]
mod test;
