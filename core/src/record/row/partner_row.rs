//! Rows of what came with partners: responses, mishaps, sets left out, advice, and the warm-up and the cool-down.

use serde::{Deserialize, Serialize};

use crate::record::{Advice, LeftOut, Mishap, Response, RoutineEnd, RoutinePart, Stamp};

/// What happened after a push.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ResponseRow {
    /// Its place in the set.
    pub cue: u16,
    /// What happened; `None` is "not noted".
    pub response: Option<Response>,
}

/// A grab or a fall, as the partner's key said.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MishapRow {
    /// The set, begun or about to begin.
    pub set: u8,
    /// The work that was done by then.
    pub at_ms: u32,
    /// What.
    pub what: Mishap,
    /// The push that it followed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cue: Option<u16>,
}

/// A set that was not begun.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeftOutRow {
    /// Its number.
    pub set: u8,
    /// When.
    pub at: Stamp,
    /// Why.
    pub why: LeftOut,
}

/// Something that was advised.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdviceRow {
    /// After which set.
    pub set: u8,
    /// What.
    pub advice: Advice,
}

/// A warm-up or a cool-down.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoutineRow {
    /// Which.
    pub part: RoutinePart,
    /// When it was over.
    pub at: Stamp,
    /// How it ended.
    pub how: RoutineEnd,
}
