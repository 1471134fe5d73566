//! Corrections: into their table and back. The entries themselves are never changed; `record` decides what a correction
//! changes in a session as it is read.

use rusqlite::{Connection, params};

use super::table::{Added, all, checked, checked_or_null, insert};
use super::{Journal, JournalError};
use counterpoise_core::record::{CorrectionRow, Question, Right, SessionRecord};

impl Journal {
    /// Keeps a correction. It is dated after those of the same session that are there already, although the clock was set
    /// back: the last one holds.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_correction(&mut self, row: &CorrectionRow) -> Result<(), JournalError> {
        self.change(|db| {
            let row = row.clone().after(&corrections(db)?);
            insert_correction(db, &row)
        })
    }

    /// The session with its corrections, the last of each holding, and whether it is set aside.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn as_corrected(&self, record: &SessionRecord) -> Result<(SessionRecord, bool), JournalError> {
        let Right { record, set_aside } = Right::of(record, &self.corrections()?);
        Ok((record, set_aside))
    }

    /// Every correction, oldest first.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn corrections(&self) -> Result<Vec<CorrectionRow>, JournalError> {
        self.consistent(corrections)
    }
}

pub(super) fn insert_correction(db: &Connection, row: &CorrectionRow) -> Added {
    let columns = "corrections (at, at_ms, session, what, set_number, question, cue, right_is, reason)";
    let CorrectionRow { at, session, what, set, question, cue, right, reason } = row;
    let question = question.map(Question::name);
    let values =
        params![at.text(), at.ms(), session.as_str(), what.name(), set, question, cue, right, reason];
    insert(db, columns, values)
}

pub(super) fn corrections(db: &Connection) -> rusqlite::Result<Vec<CorrectionRow>> {
    let sql = "SELECT at, session, what, set_number, question, cue, right_is, reason FROM corrections \
               ORDER BY at_ms, session";
    all(db, sql, [], |row| {
        Ok(CorrectionRow {
            at: checked(row, 0)?,
            session: checked(row, 1)?,
            what: checked(row, 2)?,
            set: row.get(3)?,
            question: checked_or_null(row, 4)?,
            cue: row.get(5)?,
            right: row.get(6)?,
            reason: row.get(7)?,
        })
    })
}

#[cfg(test)]
mod test;
