//! What a guesser learns from calls alone: the estimators over drawn sequences, compared with the best guesser who
//! knows the rules. Learning more than the rules allow means that there is a leak.

use super::estimators::{Estimator, Score};
use super::foresight::Drill;
use super::symbols::{CLASSES, Kind, Sequence};

/// How many standard errors above the rule-knowing guesser count as a leak \[judgment: of 24 comparisons, at
/// least one passes them by chance alone in about 1 of 1,300 audits\].
pub const LEAK_ERRORS: f64 = 4.0;

/// One estimator's score over one sequence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Learning {
    /// Which drill, in the order of the prescription.
    pub drill: usize,
    /// What the sequence is made of.
    pub kind: Kind,
    /// The estimator that guessed.
    pub estimator: Estimator,
    /// How often it was right.
    pub score: Score,
}

/// One estimator still to be run: independent of all others, so that they may run side by side.
#[derive(Debug, Clone, Copy)]
pub struct Task<'a> {
    drill: usize,
    kind: Kind,
    estimator: Estimator,
    sequence: &'a Sequence,
}

impl<'a> Task<'a> {
    /// Every estimator over every kind of sequence of every drill; a drill of one direction has only its waits. The
    /// longest tasks come first.
    pub fn all(sequences: &'a [Sequence]) -> Vec<Self> {
        let mut tasks = Vec::new();
        for estimator in [Estimator::MultiMmc, Estimator::Lz78y, Estimator::MultiMcw, Estimator::Lag] {
            for kind in [Kind::Pair, Kind::Direction, Kind::Gap] {
                for (drill, sequence) in sequences.iter().enumerate() {
                    if kind == Kind::Gap || sequence.kinds(Kind::Direction) > 1 {
                        tasks.push(Self { drill, kind, estimator, sequence });
                    }
                }
            }
        }
        tasks
    }

    /// The score; `None` for a sequence that is too short.
    pub fn run(&self) -> Option<Learning> {
        let Self { drill, kind, estimator, sequence } = *self;
        let score = estimator.judge(&sequence.symbols(kind), sequence.kinds(kind))?;
        Some(Learning { drill, kind, estimator, score })
    }
}

/// The share that the best guesser who knows every rule could name right.
pub fn rule_knowing_rate(drill: &Drill, kind: Kind) -> f64 {
    let direction = drill.direction.guess_rate;
    let gap = drill.moment.heard.class_guess(&drill.moment.bounds);
    match kind {
        Kind::Direction => direction,
        Kind::Gap => gap,
        Kind::Pair => direction * gap,
    }
}

/// The share that chance alone names right.
pub fn chance(drill: &Drill, kind: Kind) -> f64 {
    match kind {
        Kind::Direction => drill.direction.chance,
        Kind::Gap => 1.0 / f64::from(CLASSES),
        Kind::Pair => drill.direction.chance / f64::from(CLASSES),
    }
}

impl Learning {
    /// Whether it names more right than the best guesser who knows every rule could, by more than chance explains.
    pub fn leaks(&self, drill: &Drill) -> bool {
        let expected = rule_knowing_rate(drill, self.kind);
        let sampled = expected * (1.0 - expected) / self.score.guesses() as f64;
        let error = (sampled + drill.direction.error.powi(2)).sqrt();
        self.score.hit_rate() > expected + LEAK_ERRORS * error
    }
}

#[cfg(test)]
mod test;
