//! Keeps a practice with a track that was typed in from the sheet, completely or not at all.

use rusqlite::TransactionBehavior;

use super::keep::{NotKept, Try, keep};
use super::{Journal, JournalError};
use counterpoise_core::record::{BY_HAND, SessionId, Ticked};

impl Journal {
    /// Keeps a practice from the sheet, all of it or nothing.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_ticked(&mut self, id: &SessionId, ticked: &Ticked) -> Result<(), JournalError> {
        if self.lock.is_none() {
            return Err(JournalError::ReadOnly { path: self.path.clone() });
        }
        let path = self.path.clone();
        let at = |source| JournalError::from_sqlite(&path, source);
        let change = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(at)?;
        for line in ticked.lines() {
            keep(&change, id, &line, Try::First).map_err(|error| match error {
                NotKept::Sqlite(source) => JournalError::from_sqlite(&path, source),
                NotKept::Twice => {
                    JournalError::NotImported { file: BY_HAND.to_owned(), reason: error.to_string() }
                }
            })?;
        }
        change.commit().map_err(at)
    }
}
