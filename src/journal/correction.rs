//! Corrections go into their table and come back, and are applied to a session as it is read for the rules and for reports.
//! The entries themselves are never changed.

use jiff::ZonedDateTime;
use rusqlite::{Connection, params};

use super::fitness::Added;
use super::keep::insert;
use super::read::{SessionRecord, all, checked, checked_or_null};
use super::row::{Corrected, CorrectionRow, SessionId};
use super::timestamp::Stamp;
use super::{Journal, JournalError};

impl Journal {
    /// Keeps a correction.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_correction(&mut self, row: &CorrectionRow) -> Result<(), JournalError> {
        self.change(|db| insert_correction(db, row))
    }

    /// A correction of this session, made now.
    pub fn correction(
        at: &ZonedDateTime,
        session: &SessionId,
        what: Corrected,
        reason: &str,
    ) -> CorrectionRow {
        CorrectionRow {
            at: Stamp::from(at),
            session: session.clone(),
            what,
            set: None,
            question: None,
            cue: None,
            right: None,
            reason: reason.to_owned(),
        }
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
    let question = question.map(crate::record::Question::name);
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

/// The session with its corrections, the last of each holding, and whether it is set aside.
pub(super) fn apply(record: &SessionRecord, corrections: &[CorrectionRow]) -> (SessionRecord, bool) {
    let mut right = record.clone();
    let mut set_aside = false;
    for row in corrections.iter().filter(|row| row.session == record.id) {
        match row.what {
            Corrected::SetAside => set_aside = true,
            Corrected::Answer => {
                let same = |set, question| set == row.set && Some(question) == row.question;
                for answer in right.answers.iter_mut().filter(|answer| same(answer.set, answer.question)) {
                    answer.answer = row.answer();
                }
            }
            Corrected::Response => {
                let sets = right.sets.iter_mut().filter(|set| Some(set.start.number) == row.set);
                for response in
                    sets.flat_map(|set| &mut set.responses).filter(|found| Some(found.cue) == row.cue)
                {
                    response.response = row.response();
                }
            }
        }
    }
    (right, set_aside)
}
