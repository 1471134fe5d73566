//! A row of the results of balance tests.

use serde::{Deserialize, Serialize};

use crate::health::assessment::{Age, Company, Dated, Reading, Sex, Test};
use crate::record::Stamp;

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
    /// How many of the four stances were held, where that is known: only of the test that has them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stances: Option<u8>,
}

impl BalanceRow {
    /// The result as the rules see it; `None` if it is nothing that the test can give, which the gates let in nowhere.
    pub fn dated(&self) -> Option<Dated> {
        Some(Dated {
            day: self.at.day()?,
            reading: Reading::new(self.test, self.value).ok()?,
            age: self.age.and_then(|years| Age::try_from(years).ok()),
            sex: self.sex,
            company: self.company,
        })
    }

    /// Whether everything in it is within its bounds.
    pub fn is_sound(&self) -> bool {
        let age = self.age.is_none_or(|years| Age::try_from(years).is_ok());
        let stances = self.stances.is_none_or(|stances| stances <= 4 && self.test == Test::FourStage);
        age && stances && self.dated().is_some()
    }
}
