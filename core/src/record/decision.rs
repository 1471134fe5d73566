//! What progression decided for a session, as it is kept, so that each change of a step can be read later with its reason.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::LadderRow;
use crate::plan::drill::Form;
use crate::plan::prescription::DrillPlan;
use crate::words;

/// What becomes of the steps, or why there is no practice now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Decision {
    /// One step higher in one drill.
    Up,
    /// The same steps.
    Hold,
    /// One step lower.
    Down,
    /// Not now: a hold runs, or the session of this day is done.
    Rest,
    /// Not before a clinician clears it.
    Locked,
    /// Another day.
    NotDue,
}

words! {
    Decision {
        Up => "up",
        Hold => "hold",
        Down => "down",
        Rest => "rest",
        Locked => "locked",
        NotDue => "not due",
    }
}

/// The step that progression gave to a drill, before a gentler choice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Given {
    /// The drill's name.
    pub drill: String,
    /// Alone or with a partner.
    pub form: Form,
    /// The step.
    pub step: u8,
    /// The version of the ladder and the key of the step; `None` is version 1.
    #[serde(default)]
    pub ladder: Option<LadderRow>,
}

impl Given {
    /// This step of a drill of the prescription.
    pub fn of(plan: &DrillPlan, step: u8) -> Self {
        let drill = plan.drill().name().to_owned();
        Self { drill, form: plan.form(), step, ladder: LadderRow::of(plan.ladder(), step) }
    }
}

/// What was decided for one session.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decided {
    /// Up, hold or down.
    pub decision: Decision,
    /// Why, as it was said.
    pub reasons: Vec<String>,
    /// A gentler practice was chosen at the start.
    pub gentler: bool,
    /// The first set to do: above 1 where an interrupted session is finished.
    pub first_set: u8,
    /// How many sets the whole session has, before some were left away.
    pub sets_whole: u8,
    /// The latest moment that the journal knew.
    #[serde(rename = "seen_before_ms", with = "jiff::fmt::serde::timestamp::millisecond::optional")]
    pub seen_before: Option<Timestamp>,
    /// The step of each drill that was not left out.
    pub given: Vec<Given>,
}
