//! Rows out of the tables, assembled: sessions with their sets, cues, answers and summaries, as values of `record`.

use rusqlite::{Connection, OptionalExtension, Row};

use super::fitness::{decision, readiness};
use super::table::{all, answer, checked, numbered};
use super::tryout::tryout;
use super::{Journal, JournalError};
use counterpoise_core::record::{
    AdviceRow, AnswerRow, ChangeRow, LeftOutRow, MishapRow, RoutineRow, SessionEnd, SessionId, SessionRecord,
    SessionRow, Stamp, SummaryRow, form_of,
};

mod sets;

use sets::sets;

impl Journal {
    /// The ids of all sessions, oldest first.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn ids(&self) -> Result<Vec<SessionId>, JournalError> {
        self.consistent(ids)
    }

    /// The session with this id, or with these first digits of one; `last` is the newest.
    ///
    /// # Errors
    /// If there is none, or more than one, or the file cannot be read.
    pub fn find(&self, which: &str) -> Result<SessionRecord, JournalError> {
        let ids = self.ids()?;
        let wanted = which.to_ascii_lowercase();
        let mut found = ids.iter().filter(|id| !wanted.is_empty() && id.as_str().starts_with(&wanted));
        let id = match (wanted.as_str(), found.next(), found.next()) {
            ("last", _, _) => ids.last(),
            (_, Some(_), Some(_)) => return Err(JournalError::Ambiguous(which.to_owned())),
            (_, found, _) => found,
        };
        let id = id.ok_or_else(|| JournalError::NoSuchSession(which.to_owned()))?;
        self.consistent(|db| session(db, id))
    }

    /// All sessions, oldest first, as they stand at one moment.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn sessions(&self) -> Result<Vec<SessionRecord>, JournalError> {
        self.consistent(sessions)
    }

    /// The patches of the last floor course, in the order in which they were walked; empty if there was none.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn last_course(&self) -> Result<Vec<String>, JournalError> {
        self.consistent(last_course)
    }

    /// All changes outside of sessions, oldest first.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn changes(&self) -> Result<Vec<ChangeRow>, JournalError> {
        self.consistent(changes)
    }

    /// Reads within one transaction, so that a practice going on beside changes nothing in between.
    pub(super) fn consistent<T>(
        &self,
        read: impl FnOnce(&Connection) -> rusqlite::Result<T>,
    ) -> Result<T, JournalError> {
        let reading = self.db.unchecked_transaction().map_err(|source| self.sqlite(source))?;
        read(&reading).map_err(|source| self.sqlite(source))
    }
}

pub(super) fn ids(db: &Connection) -> rusqlite::Result<Vec<SessionId>> {
    all(db, "SELECT id FROM sessions ORDER BY begun_ms, id", [], |row| checked(row, 0))
}

pub(super) fn sessions(db: &Connection) -> rusqlite::Result<Vec<SessionRecord>> {
    ids(db)?.iter().map(|id| session(db, id)).collect()
}

pub(super) fn changes(db: &Connection) -> rusqlite::Result<Vec<ChangeRow>> {
    all(db, "SELECT at, what, digest FROM changes ORDER BY at_ms, what, digest", [], |row| {
        Ok(ChangeRow { at: checked(row, 0)?, what: row.get(1)?, digest: row.get(2)? })
    })
}

/// The session with this id.
pub(super) fn session(db: &Connection, id: &SessionId) -> rusqlite::Result<SessionRecord> {
    let sets = sets(db, id.as_str())?;
    Ok(SessionRecord {
        id: id.clone(),
        form: form_of(&sets),
        start: start(db, id.as_str())?,
        end: summary(db, id.as_str())?,
        tryout: tryout(db, id.as_str())?,
        decided: decision(db, id.as_str())?,
        ready: readiness(db, id.as_str())?,
        answers: answers(db, id.as_str())?,
        sets,
        left_out: left_out(db, id.as_str())?,
        mishaps: mishaps(db, id.as_str())?,
        advised: advised(db, id.as_str())?,
        routines: routines(db, id.as_str())?,
        course: course(db, id.as_str())?,
    })
}

fn start(db: &Connection, id: &str) -> rusqlite::Result<SessionRow> {
    let sql = "SELECT begun, title, digest, seed, seed_given, method, voice, device, sets_planned \
               FROM sessions WHERE id = ?";
    db.prepare_cached(sql)?.query_row([id], |row| {
        Ok(SessionRow {
            begun: checked(row, 0)?,
            title: row.get(1)?,
            digest: row.get(2)?,
            seed: row.get(3)?,
            seed_given: row.get(4)?,
            method: row.get(5)?,
            voice: row.get(6)?,
            device: row.get(7)?,
            sets_planned: row.get(8)?,
        })
    })
}

fn summary(db: &Connection, id: &str) -> rusqlite::Result<Option<SummaryRow>> {
    let sql = "SELECT ended, why, sets_completed, sets_planned, cues_heard, cues_shown, active_ms, \
               grabbed, held_on, effort, steadiness, unwell, not_said, cues_asked, grabs, falls, \
               pushes_noted, pushes_not_noted FROM session_ends WHERE session = ?";
    let read = |row: &Row<'_>| {
        Ok(SummaryRow {
            at: checked(row, 0)?,
            why: checked(row, 1)?,
            sets_completed: row.get(2)?,
            sets_planned: row.get(3)?,
            cues_heard: row.get(4)?,
            cues_shown: row.get(5)?,
            active_ms: row.get::<_, i64>(6)? as u64,
            grabbed: numbered(row, 7)?,
            held_on: numbered(row, 8)?,
            effort: numbered(row, 9)?,
            steadiness: numbered(row, 10)?,
            unwell: numbered(row, 11)?,
            not_said: row.get(12)?,
            cues_asked: row.get(13)?,
            grabs: row.get(14)?,
            falls: row.get(15)?,
            pushes_noted: row.get(16)?,
            pushes_not_noted: row.get(17)?,
        })
    };
    db.prepare_cached(sql)?.query_row([id], read).optional()
}

/// When and why a session ended.
pub(super) fn session_end(db: &Connection, id: &str) -> rusqlite::Result<Option<(Stamp, SessionEnd)>> {
    Ok(summary(db, id)?.map(|summary| (summary.at, summary.why)))
}

fn answers(db: &Connection, id: &str) -> rusqlite::Result<Vec<AnswerRow>> {
    let sql = "SELECT place, set_number, question, answer FROM answers WHERE session = ? ORDER BY place";
    all(db, sql, [id], |row| {
        Ok(AnswerRow { place: row.get(0)?, set: row.get(1)?, answer: answer(row, 2, 3)? })
    })
}

fn left_out(db: &Connection, id: &str) -> rusqlite::Result<Vec<LeftOutRow>> {
    let sql = "SELECT set_number, at, why FROM left_out WHERE session = ? ORDER BY set_number";
    all(db, sql, [id], |row| Ok(LeftOutRow { set: row.get(0)?, at: checked(row, 1)?, why: checked(row, 2)? }))
}

fn mishaps(db: &Connection, id: &str) -> rusqlite::Result<Vec<MishapRow>> {
    let sql = "SELECT place, set_number, at_ms, what, cue FROM mishaps WHERE session = ? ORDER BY place";
    all(db, sql, [id], |row| {
        Ok(MishapRow {
            place: row.get(0)?,
            set: row.get(1)?,
            at_ms: row.get(2)?,
            what: checked(row, 3)?,
            cue: row.get(4)?,
        })
    })
}

fn advised(db: &Connection, id: &str) -> rusqlite::Result<Vec<AdviceRow>> {
    let sql = "SELECT place, set_number, advice FROM advice WHERE session = ? ORDER BY place";
    all(db, sql, [id], |row| Ok(AdviceRow { place: row.get(0)?, set: row.get(1)?, advice: checked(row, 2)? }))
}

fn routines(db: &Connection, id: &str) -> rusqlite::Result<Vec<RoutineRow>> {
    let sql = "SELECT part, at, how FROM routines WHERE session = ? ORDER BY at_ms, part";
    all(db, sql, [id], |row| {
        Ok(RoutineRow { part: checked(row, 0)?, at: checked(row, 1)?, how: checked(row, 2)? })
    })
}

fn course(db: &Connection, id: &str) -> rusqlite::Result<Vec<String>> {
    all(db, "SELECT patch FROM courses WHERE session = ? ORDER BY nth", [id], |row| row.get(0))
}

/// The last floor course that was walked; empty if there was none.
pub(super) fn last_course(db: &Connection) -> rusqlite::Result<Vec<String>> {
    let sql = "SELECT id FROM sessions JOIN courses ON session = id ORDER BY begun_ms DESC, id LIMIT 1";
    let last: Option<String> = db.prepare_cached(sql)?.query_row([], |row| row.get(0)).optional()?;
    last.map_or(Ok(Vec::new()), |id| course(db, &id))
}
