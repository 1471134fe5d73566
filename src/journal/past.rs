//! The journal as the rules of progression see it.

use super::{Journal, JournalError};
use counterpoise_core::course::past::Past;

impl Journal {
    /// Everything that was practiced, and what was cleared.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn past(&self) -> Result<Past, JournalError> {
        self.consistent(|db| {
            Ok(Past::of(
                &super::read::sessions(db)?,
                &super::correction::corrections(db)?,
                &super::fitness::clearances(db)?,
            ))
        })
    }
}
