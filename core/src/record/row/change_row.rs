//! What changed outside of sessions: which prescription came into use, and its bytes.

use serde::{Deserialize, Serialize};

use crate::plan::prescription::Digest;
use crate::record::Stamp;
use crate::words;

/// What became of a prescription that was handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Change {
    /// It came into use.
    InUse,
    /// Somebody said no to it, so that it is not offered again.
    NotTaken,
}

words! {
    Change {
        InUse => "prescription in use",
        NotTaken => "prescription not taken",
    }
}

/// A prescription that was handed over.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChangeRow {
    /// When.
    pub at: Stamp,
    /// What became of it.
    pub what: Change,
    /// Where it came from.
    pub source: String,
    /// Its digest.
    pub digest: Digest,
}

impl ChangeRow {
    /// It in words: `prescription in use: prescription.toml`.
    pub fn sentence(&self) -> String {
        format!("{}: {}", self.what, self.source)
    }
}

/// A prescription as it was written, so that what was practiced can be read when its file is gone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PrescriptionText {
    /// The digest of its bytes.
    pub digest: Digest,
    /// The bytes: a prescription is text in UTF-8.
    pub text: String,
}
