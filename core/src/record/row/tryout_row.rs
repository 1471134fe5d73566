//! Rows of a supervised try-out.

use serde::{Deserialize, Serialize};

use crate::record::{Seen, TriedOut};

/// Who watched, with which partner, and what was seen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TryoutRow {
    /// Who watched.
    pub watched_by: String,
    /// With which partner; empty alone.
    pub partner: String,
    /// What was seen, in order.
    #[serde(default)]
    pub seen: Vec<SeenRow>,
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

impl From<&TriedOut> for TryoutRow {
    fn from(tried: &TriedOut) -> Self {
        Self { watched_by: tried.watched_by.clone(), partner: tried.partner.clone(), seen: Vec::new() }
    }
}
