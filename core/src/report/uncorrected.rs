//! The counts as recorded, beside those after corrections: a correction hides nothing.

use serde::Serialize;

use super::figures::median_text;
use super::material::{Material, Period, PeriodSessions};
use super::{Dose, Group, Ratings, Responses};
use crate::blocks::Table;
use crate::plan::prescription::Prescription;

/// What is counted of a period: of what was kept, or of what is right.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Counts {
    /// Days with practice.
    pub days: usize,
    /// Sessions that were begun.
    pub sessions: usize,
    /// Sessions with every set completed.
    pub sessions_whole: usize,
    /// Sets completed.
    pub sets: usize,
    /// Calls that were heard, shown or asked for.
    pub cues: u64,
    /// Pushes whose response was noted.
    pub noted: usize,
    /// In place or one step.
    pub one_step_or_better: usize,
    /// Two or more steps.
    pub two_or_more: usize,
    /// Touched, grabbed, steadied or fell.
    pub support: usize,
    /// The median of the effort ratings, 0 to 10.
    pub effort: Option<f64>,
    /// The median of the steadiness ratings, 1 to 5.
    pub steadiness: Option<f64>,
    /// The median of the times held on.
    pub held_on: Option<f64>,
}

impl Counts {
    pub(super) fn new(dose: &Dose, responses: &Responses, ratings: &Ratings) -> Self {
        let all = responses.groups.first();
        let count = |of: fn(&Group) -> usize| all.map_or(0, of);
        Self {
            days: dose.days,
            sessions: dose.sessions,
            sessions_whole: dose.sessions_whole,
            sets: dose.sets,
            cues: dose.cues,
            noted: responses.noted,
            one_step_or_better: count(Group::good),
            two_or_more: count(|all| all.more_steps),
            support: count(Group::supported),
            effort: ratings.effort.median,
            steadiness: ratings.steadiness.median,
            held_on: ratings.held_on.median,
        }
    }

    /// The counts before any correction; `None` where nothing was corrected.
    pub(super) fn as_kept(material: &Material, prescription: &Prescription, period: Period) -> Option<Self> {
        let kept = material.as_kept.as_deref()?;
        let inside = PeriodSessions::new(kept, period);
        let dose = Dose::of(&inside, &kept.past, prescription, period);
        Some(Self::new(&dose, &Responses::of(&inside), &Ratings::of(&inside)))
    }

    /// Both, a row each.
    pub(super) fn table(&self, right: &Self) -> Table {
        let row = |what: &str, of: &dyn Fn(&Self) -> String| vec![what.to_owned(), of(self), of(right)];
        Table::new(
            "As recorded, and after corrections",
            &["what", "as recorded", "corrected"],
            vec![
                row("days with practice", &|of| of.days.to_string()),
                row("sessions", &|of| of.sessions.to_string()),
                row("full sessions", &|of| of.sessions_whole.to_string()),
                row("completed sets", &|of| of.sets.to_string()),
                row("calls", &|of| of.cues.to_string()),
                row("pushes noted", &|of| of.noted.to_string()),
                row("one step or better", &|of| of.one_step_or_better.to_string()),
                row("two or more steps", &|of| of.two_or_more.to_string()),
                row("support", &|of| of.support.to_string()),
                row("effort, median", &|of| median_text(of.effort)),
                row("steadiness, median", &|of| median_text(of.steadiness)),
                row("held on, median", &|of| median_text(of.held_on)),
            ],
        )
    }
}
