//! The person's own ratings after sets: effort, steadiness, holding on; the hardest or worst of each practice, over
//! practices.

use serde::Serialize;

use super::material::PeriodSessions;
use crate::course::trend::{Slope, of_practice, slope};
use crate::record::Question;

/// Self-ratings. In one study they ran lower than therapists' (Front Rehabil Sci 2023;4:1096171 \[read, abstract\]); the
/// report says so.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ratings {
    /// The hardest effort of each practice, 0 to 10.
    pub effort: Line,
    /// The worst steadiness of each practice, 1 steady to 5 lost balance.
    pub steadiness: Line,
    /// Times held on beyond what the step allows, in each practice.
    pub held_on: Line,
    /// Once a week: nearly fell in daily life, 3 meaning three or more.
    pub near_falls: Line,
    /// Once a week: how sure of their balance, 1 not at all to 5 quite.
    pub confidence: Line,
    /// Once a week: how sore, 0 not to 3 very.
    pub soreness: Line,
    /// Falls in daily life that were reported before practice, each once.
    pub falls_told: usize,
    /// Questions that were asked and skipped; questions that were never asked do not count.
    pub not_said: usize,
}

/// One value for each practice or week that has an answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// In their order.
    pub values: Vec<u32>,
    /// The middle of them.
    pub median: Option<f64>,
    /// The slope from one to the next; `None` with too few.
    pub trend: Option<Slope>,
}

impl Line {
    fn of(values: Vec<u32>) -> Self {
        let mut sorted = values.clone();
        sorted.sort_unstable();
        let middle = |sorted: &[u32]| {
            let n = sorted.len();
            f64::from(sorted[(n - 1) / 2] + sorted[n / 2]) / 2.0
        };
        let median = (!sorted.is_empty()).then(|| middle(&sorted));
        let as_numbers: Vec<f64> = values.iter().map(|value| f64::from(*value)).collect();
        let trend = slope(&as_numbers);
        Self { values, median, trend }
    }
}

impl Ratings {
    pub(super) fn of(inside: &PeriodSessions<'_>) -> Self {
        let line = |question| {
            let a_practice = inside.practices.iter().filter_map(|practice| {
                let sets = practice.sessions.iter().flat_map(|(session, _)| &session.sets);
                of_practice(sets, question)
            });
            Line::of(a_practice.collect())
        };
        let weekly = |question: Question| {
            let answers = inside.own_sessions().flat_map(|(_, more)| &more.weekly);
            let of_question = answers.filter(|answer| answer.question() == question);
            Line::of(of_question.filter_map(|answer| answer.number()).map(u32::from).collect())
        };
        let fell = inside.own_sessions().filter(|(session, _)| session.reports_new_fall());
        Self {
            near_falls: weekly(Question::NearFalls),
            confidence: weekly(Question::Confidence),
            soreness: weekly(Question::Soreness),
            falls_told: fell.count(),
            effort: line(Question::Effort),
            steadiness: line(Question::Steadiness),
            held_on: line(Question::HeldOn),
            not_said: inside.own_sessions().map(|(_, more)| more.not_said).sum(),
        }
    }
}
