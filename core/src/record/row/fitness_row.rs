//! Rows of what decides whether a person practices, and at which step: readiness, decisions, suitability, clearances.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use crate::health::readiness::Item;
use crate::health::suitability::{Answer, Topic};
use crate::plan::drill::Form;
use crate::record::{Barrier, Decided, Decision, Given, LadderRow, Stamp};

/// A sentence on the pages of readiness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReadyRow {
    /// Which.
    pub item: Item,
    /// Whether it was true.
    pub is_true: bool,
}

/// What progression decided for a session.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DecisionRow {
    /// Up, hold or down.
    pub decision: Decision,
    /// Why, in plain words.
    pub reasons: Vec<String>,
    /// A gentler practice was chosen at the start.
    pub gentler: bool,
    /// The first set to do.
    pub first_set: u8,
    /// How many sets the whole session has.
    pub sets_whole: u8,
    /// The latest moment that the journal knew, in milliseconds since 1970-01-01 UTC.
    pub seen_before_ms: Option<i64>,
    /// The step of each drill, before a gentler choice.
    pub given: Vec<GivenRow>,
}

/// The step of a drill.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GivenRow {
    /// The drill's name.
    pub drill: String,
    /// Alone or with a partner.
    pub form: Form,
    /// The step.
    pub step: u8,
    /// The version of the ladder and the key of the step; `None` is version 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ladder: Option<LadderRow>,
}

/// The answers about suitability, given at one moment.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SuitabilityRow {
    /// When.
    pub at: Stamp,
    /// Whether practice with a partner was asked about too.
    pub partner: bool,
    /// What was answered.
    pub answers: Vec<TopicRow>,
}

/// One answer about suitability.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TopicRow {
    /// The topic.
    pub topic: Topic,
    /// The answer.
    pub answer: Answer,
}

/// Who cleared the person, and what that lifted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClearanceRow {
    /// When.
    pub at: Stamp,
    /// Who.
    pub who: String,
    /// Why.
    pub reason: String,
    /// What it lifted.
    pub lifted: Vec<LiftedRow>,
}

/// Something that a clearance lifted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LiftedRow {
    /// The session that locked it, or the moment of the answers about suitability.
    pub locked_by: String,
    /// What.
    pub what: Barrier,
}

impl From<&Decided> for DecisionRow {
    fn from(decided: &Decided) -> Self {
        let given = decided.given.iter();
        Self {
            decision: decided.decision,
            reasons: decided.reasons.clone(),
            gentler: decided.gentler,
            first_set: decided.first_set,
            sets_whole: decided.sets_whole,
            seen_before_ms: decided.seen_before.map(Timestamp::as_millisecond),
            given: given
                .map(|Given { drill, form, step, ladder }| GivenRow {
                    drill: drill.clone(),
                    form: *form,
                    step: *step,
                    ladder: ladder.clone(),
                })
                .collect(),
        }
    }
}
