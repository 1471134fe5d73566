//! A row of the results of balance tests.

use serde::{Deserialize, Serialize};

use crate::journal::timestamp::Stamp;
use counterpoise_core::health::assessment::{Company, Sex, Test};

/// One result.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BalanceRow {
    /// When.
    pub at: Stamp,
    /// Which test.
    pub test: Test,
    /// Tenths of a second, or rises; `None`: unable.
    pub value: Option<u32>,
    /// In years, where it was given.
    pub age: Option<u8>,
    /// Where it was given.
    pub sex: Option<Sex>,
    /// With whom.
    pub company: Company,
    /// Who took it, elsewhere; may be empty.
    pub by_whom: String,
}
