//! A supervised try-out, as it is kept: single drills and steps that a therapist watches in the room. It does not count as
//! practice.

use serde::{Deserialize, Serialize};

use crate::words;

/// Who watches, and with which partner.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TriedOut {
    /// Initials or a role.
    pub watched_by: String,
    /// With which partner; empty alone.
    pub partner: String,
}

/// One thing that was seen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SeenRow {
    /// Of what.
    pub what: Seen,
    /// The words of whoever watched.
    pub words: String,
}

/// Of what something was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Seen {
    /// How the feet answered.
    Feet,
    /// What the person held on to.
    Support,
    /// Anything else.
    InWords,
    /// What was unlocked because of it.
    Unlocked,
}

words! {
    Seen {
        Feet => "feet",
        Support => "support",
        InWords => "in words",
        Unlocked => "unlocked",
    }
}
