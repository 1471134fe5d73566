//! Rows of what decides whether a person practices, and at which step: readiness, decisions, suitability, clearances.

use serde::{Deserialize, Serialize};

use crate::health::readiness::Item;
use crate::health::suitability::{Answer, Topic};
use crate::record::{Barrier, Id, Stamp};

/// A sentence on the pages of readiness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReadyRow {
    /// Which.
    pub item: Item,
    /// Whether it was true.
    pub is_true: bool,
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
    /// The answers before, which these replace, by their ids.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub replaces: Vec<Id>,
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
    /// The session that locked it, or the answers about suitability: an id. (Before answers had one: their moment.)
    pub locked_by: String,
    /// What.
    pub what: Barrier,
    /// The ids of the entries that caused it and were known then. A lock that another entry causes stays.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub told_by: Vec<Id>,
}
