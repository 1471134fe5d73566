//! The journal as a report needs it.

use super::{Journal, JournalError};
use counterpoise_core::report::Material;

impl Journal {
    /// Everything that a report is made of, as of one moment.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn material(&self) -> Result<Material, JournalError> {
        self.consistent(|db| {
            Ok(Material::of(
                &super::read::sessions(db)?,
                &super::correction::corrections(db)?,
                super::fitness::clearances(db)?,
                super::read::changes(db)?,
                &super::balance::balance_tests(db)?,
            ))
        })
    }
}
