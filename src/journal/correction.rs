//! Corrections go into their table and come back, and are applied to a session as it is read for the rules and for reports.
//! The entries themselves are never changed.

use jiff::ZonedDateTime;
use rusqlite::{Connection, params};

use super::read::SessionRecord;
use super::row::{Corrected, CorrectionRow, SessionId};
use super::table::{Added, all, checked, checked_or_null, insert};
use super::timestamp::Stamp;
use super::{Journal, JournalError};

impl Journal {
    /// Keeps a correction. It is dated after those of the same session that are there already, although the clock was set
    /// back: the last one holds.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_correction(&mut self, row: &CorrectionRow) -> Result<(), JournalError> {
        self.change(|db| {
            let before = corrections(db)?;
            let latest = before.iter().filter(|other| other.session == row.session).map(|other| &other.at);
            let mut row = row.clone();
            if let Some(latest) = latest.max_by_key(|at| at.ms()).filter(|at| at.ms() >= row.at.ms()) {
                row.at = latest.plus(1);
            }
            insert_correction(db, &row)
        })
    }

    /// The session with its corrections, the last of each holding, and whether it is set aside.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn as_corrected(&self, record: &SessionRecord) -> Result<(SessionRecord, bool), JournalError> {
        Ok(apply(record, &self.corrections()?))
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
    let question = question.map(counterpoise_core::record::Question::name);
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

/// A session as it is right so far, corrections being taken one after the other: the last of each holds.
#[derive(Debug, Clone)]
pub(super) struct Right {
    /// The session, with what was corrected in it.
    pub record: SessionRecord,
    /// Whether it counts as no practice.
    pub set_aside: bool,
}

impl Right {
    /// The session as it was kept.
    pub(crate) fn new(record: &SessionRecord) -> Self {
        Self { record: record.clone(), set_aside: false }
    }

    /// Takes a correction, if it is of this session, and says whether it was.
    pub(crate) fn correct(&mut self, row: &CorrectionRow) -> bool {
        if row.session != self.record.id {
            return false;
        }
        match row.what {
            Corrected::SetAside => self.set_aside = true,
            Corrected::CountsAgain => self.set_aside = false,
            Corrected::Answer => {
                let same = |set, question| set == row.set && Some(question) == row.question;
                let answers = self.record.answers.iter_mut();
                for answer in answers.filter(|answer| same(answer.set, answer.question)) {
                    answer.answer = row.answer();
                }
            }
            Corrected::Response => {
                let sets = self.record.sets.iter_mut().filter(|set| Some(set.start.number) == row.set);
                let responses = sets.flat_map(|set| &mut set.responses);
                for response in responses.filter(|found| Some(found.cue) == row.cue) {
                    response.response = row.response();
                }
            }
        }
        true
    }
}

/// The session with its corrections, and whether it is set aside.
pub(super) fn apply(record: &SessionRecord, corrections: &[CorrectionRow]) -> (SessionRecord, bool) {
    let mut right = Right::new(record);
    for row in corrections {
        right.correct(row);
    }
    (right.record, right.set_aside)
}

#[cfg(test)]
mod test;
