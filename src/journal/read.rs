//! What the journal holds, read back as values: sessions with their sets, cues, answers and summaries. Not how they
//! are printed (`list`, `show`, `export`). These values are also the form of the export.

use rusqlite::types::Type;
use rusqlite::{Connection, OptionalExtension, Row, params};
use serde::de::{DeserializeOwned, IntoDeserializer};
use serde::{Deserialize, Serialize};

use super::row::{AnswerRow, CueRow, DeliveryRow, DisturbanceRow, SessionId, SessionRow, SetEndRow, SetRow};
use super::timestamp::Stamp;
use super::{Journal, JournalError};
use crate::drill::Form;
use crate::record::SessionEnd;

/// One session, whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionRecord {
    /// Its id.
    pub id: SessionId,
    /// Partner if any set was done with one; `None` if no set was begun.
    pub form: Option<Form>,
    /// What was known at its beginning.
    pub start: SessionRow,
    /// Its end and summary; `None` while it goes on.
    pub end: Option<SummaryRow>,
    /// What was asked and answered, in order.
    pub answers: Vec<AnswerRow>,
    /// The sets that were begun.
    pub sets: Vec<SetRecord>,
}

/// One set, whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetRecord {
    /// The set as it began.
    pub start: SetRow,
    /// Its end; `None` while it goes on.
    pub end: Option<SetEndRow>,
    /// The plan it began with, then one after each pause.
    pub plans: Vec<PlanRecord>,
    /// What was heard or shown.
    pub delivered: Vec<DeliveryRow>,
    /// When the sound was disturbed, in order.
    #[serde(default)]
    pub disturbed: Vec<DisturbanceRow>,
}

/// The cues of a set as planned at its beginning or after a pause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanRecord {
    /// 0 at the beginning, then the number of the pause.
    pub plan: u16,
    /// The work that was done when the pause began.
    pub paused_at_ms: Option<u32>,
    /// The cues, those already called included.
    pub cues: Vec<CueRow>,
}

/// How a session ended, and its figures.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SummaryRow {
    /// When.
    pub at: Stamp,
    /// Why.
    pub why: SessionEnd,
    /// Sets that were done whole.
    pub sets_completed: u32,
    /// Sets that were planned.
    pub sets_planned: u32,
    /// Cues whose clip began.
    pub cues_heard: u32,
    /// Cues that were only shown.
    pub cues_shown: u32,
    /// Work in all.
    pub active_ms: u64,
    /// Whether any set was ended by a grab or a near fall: 1 or 0; `None`: not asked, or not said.
    pub grabbed: Option<u8>,
    /// The most times held on in a set.
    pub held_on: Option<u8>,
    /// The hardest effort.
    pub effort: Option<u8>,
    /// The worst steadiness.
    pub steadiness: Option<u8>,
    /// Whether unwell: 1 or 0.
    pub unwell: Option<u8>,
    /// Questions that were passed over.
    pub not_said: u32,
}

/// Something that was changed outside of sessions.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChangeRow {
    /// When.
    pub at: Stamp,
    /// What.
    pub what: String,
    /// The digest of the file that is now in use.
    pub digest: String,
}

impl SetRecord {
    /// The plan that was in force at the end.
    pub fn last_plan(&self) -> &[CueRow] {
        self.plans.last().map_or(&[], |plan| &plan.cues)
    }

    /// How a cue of the last plan was delivered, if it was.
    pub fn delivery_of(&self, cue: u16) -> Option<&DeliveryRow> {
        self.delivered.iter().find(|delivery| delivery.cue == cue)
    }
}

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
    let form = match sets.iter().any(|set| set.start.form == Form::Partner) {
        true => Some(Form::Partner),
        false => sets.first().map(|set| set.start.form),
    };
    Ok(SessionRecord {
        id: id.clone(),
        form,
        start: start(db, id.as_str())?,
        end: summary(db, id.as_str())?,
        answers: answers(db, id.as_str())?,
        sets,
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
               grabbed, held_on, effort, steadiness, unwell, not_said FROM session_ends WHERE session = ?";
    let read = |row: &Row<'_>| {
        Ok(SummaryRow {
            at: checked(row, 0)?,
            why: checked(row, 1)?,
            sets_completed: row.get(2)?,
            sets_planned: row.get(3)?,
            cues_heard: row.get(4)?,
            cues_shown: row.get(5)?,
            active_ms: row.get::<_, i64>(6)? as u64,
            grabbed: row.get(7)?,
            held_on: row.get(8)?,
            effort: row.get(9)?,
            steadiness: row.get(10)?,
            unwell: row.get(11)?,
            not_said: row.get(12)?,
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
        Ok(AnswerRow {
            place: row.get(0)?,
            set: row.get(1)?,
            question: checked(row, 2)?,
            answer: row.get(3)?,
        })
    })
}

fn sets(db: &Connection, id: &str) -> rusqlite::Result<Vec<SetRecord>> {
    let sql = "SELECT number, begun, drill, form, step, stance, side, surface, support, vision, \
               work_ms, recover_ms, rest_ms FROM sets WHERE session = ? ORDER BY number";
    let starts = all(db, sql, [id], |row| {
        Ok(SetRow {
            number: row.get(0)?,
            begun: checked(row, 1)?,
            drill: row.get(2)?,
            form: checked(row, 3)?,
            step: row.get(4)?,
            stance: checked(row, 5)?,
            side: checked_or_null(row, 6)?,
            surface: checked(row, 7)?,
            support: checked(row, 8)?,
            vision: checked(row, 9)?,
            work_ms: row.get(10)?,
            recover_ms: row.get(11)?,
            rest_ms: row.get(12)?,
        })
    })?;
    starts
        .into_iter()
        .map(|start| {
            let number = start.number;
            Ok(SetRecord {
                end: set_end(db, id, number)?,
                plans: plans(db, id, number)?,
                delivered: deliveries(db, id, number)?,
                disturbed: disturbances(db, id, number)?,
                start,
            })
        })
        .collect()
}

fn set_end(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Option<SetEndRow>> {
    let sql = "SELECT ended, worked_ms, why FROM set_ends WHERE session = ? AND set_number = ?";
    let read =
        |row: &Row<'_>| Ok(SetEndRow { at: checked(row, 0)?, worked_ms: row.get(1)?, why: checked(row, 2)? });
    db.prepare_cached(sql)?.query_row(params![id, set], read).optional()
}

fn plans(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Vec<PlanRecord>> {
    let sql = "SELECT plan, paused_at_ms FROM plans WHERE session = ? AND set_number = ? ORDER BY plan";
    let plans: Vec<(u16, Option<u32>)> =
        all(db, sql, params![id, set], |row| Ok((row.get(0)?, row.get(1)?)))?;
    plans
        .into_iter()
        .map(|(plan, paused_at_ms)| Ok(PlanRecord { plan, paused_at_ms, cues: cues(db, id, set, plan)? }))
        .collect()
}

fn cues(db: &Connection, id: &str, set: u8, plan: u16) -> rusqlite::Result<Vec<CueRow>> {
    let sql = "SELECT cue, at_ms, gap_ms, blank, action, direction, phrase FROM cues \
               WHERE session = ? AND set_number = ? AND plan = ? ORDER BY cue";
    all(db, sql, params![id, set, plan], |row| {
        Ok(CueRow {
            cue: row.get(0)?,
            at_ms: row.get(1)?,
            gap_ms: row.get(2)?,
            blank: row.get(3)?,
            action: checked_or_null(row, 4)?,
            direction: checked_or_null(row, 5)?,
            phrase: row.get(6)?,
        })
    })
}

fn deliveries(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Vec<DeliveryRow>> {
    let sql = "SELECT cue, wanted_frame, began_frame, frames_per_second, heard_ms, shown_ms FROM deliveries \
               WHERE session = ? AND set_number = ? ORDER BY cue";
    all(db, sql, params![id, set], |row| {
        Ok(DeliveryRow {
            cue: row.get(0)?,
            wanted_frame: row.get(1)?,
            began_frame: row.get(2)?,
            frames_per_second: row.get(3)?,
            heard_ms: row.get(4)?,
            shown_ms: row.get(5)?,
        })
    })
}

fn disturbances(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Vec<DisturbanceRow>> {
    let sql =
        "SELECT place, at_ms, how FROM disturbances WHERE session = ? AND set_number = ? ORDER BY place";
    all(db, sql, params![id, set], |row| {
        Ok(DisturbanceRow { place: row.get(0)?, at_ms: row.get(1)?, how: checked(row, 2)? })
    })
}

fn all<T>(
    db: &Connection,
    sql: &str,
    values: impl rusqlite::Params,
    read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
) -> rusqlite::Result<Vec<T>> {
    db.prepare_cached(sql)?.query_map(values, read)?.collect()
}

/// A text of the file that must be one of the domain's words, an id or a moment.
fn checked<T: DeserializeOwned>(row: &Row<'_>, column: usize) -> rusqlite::Result<T> {
    let text: String = row.get(column)?;
    let read: Result<T, serde::de::value::Error> = T::deserialize(text.into_deserializer());
    read.map_err(|error| rusqlite::Error::FromSqlConversionFailure(column, Type::Text, Box::new(error)))
}

fn checked_or_null<T: DeserializeOwned>(row: &Row<'_>, column: usize) -> rusqlite::Result<Option<T>> {
    match row.get_ref(column)? {
        rusqlite::types::ValueRef::Null => Ok(None),
        _ => checked(row, column).map(Some),
    }
}
