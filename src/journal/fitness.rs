//! Readiness, decisions, suitability answers and clearances: into their tables and back.

use jiff::ZonedDateTime;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

use super::table::{Added, all, checked, insert, word};
use super::{Journal, JournalError};
use counterpoise_core::course::past::Lifted;
use counterpoise_core::health::suitability::{Answer, Topic};
use counterpoise_core::record::{
    ClearanceRow, DecisionRow, GivenRow, LiftedRow, ReadyRow, Stamp, SuitabilityRow, TopicRow,
};

impl Journal {
    /// Keeps the answers about suitability. They hold from now on; earlier ones stay as they are.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_suitability(
        &mut self,
        at: &ZonedDateTime,
        partner: bool,
        answers: &[(Topic, Answer)],
    ) -> Result<(), JournalError> {
        let answers = answers.iter().map(|(topic, answer)| TopicRow { topic: *topic, answer: *answer });
        let row = SuitabilityRow { at: Stamp::from(at), partner, answers: answers.collect() };
        self.change(|db| insert_suitability(db, &row))
    }

    /// Keeps a clearance, and what it lifts.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_clearance(
        &mut self,
        at: &ZonedDateTime,
        who: &str,
        reason: &str,
        lifts: &[Lifted],
    ) -> Result<(), JournalError> {
        let lifted = lifts.iter();
        let lifted =
            lifted.map(|lifted| LiftedRow { locked_by: lifted.session.clone(), what: lifted.what }).collect();
        let row =
            ClearanceRow { at: Stamp::from(at), who: who.to_owned(), reason: reason.to_owned(), lifted };
        self.change(|db| insert_clearance(db, &row))
    }

    /// One change outside of a session.
    pub(super) fn change(&mut self, write: impl FnOnce(&Connection) -> Added) -> Result<(), JournalError> {
        if self.lock.is_none() {
            return Err(JournalError::ReadOnly { path: self.path.clone() });
        }
        let path = self.path.clone();
        let at = |source| JournalError::from_sqlite(&path, source);
        let change = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(at)?;
        write(&change).map_err(at)?;
        change.commit().map_err(at)
    }

    /// Every time that suitability was answered, oldest first.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn suitability(&self) -> Result<Vec<SuitabilityRow>, JournalError> {
        self.consistent(suitability)
    }

    /// Every clearance, oldest first.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn clearances(&self) -> Result<Vec<ClearanceRow>, JournalError> {
        self.consistent(clearances)
    }
}

pub(super) fn insert_readiness(db: &Connection, id: &str, rows: &[ReadyRow]) -> Added {
    let mut added = true;
    for (nth, row) in (0_u32..).zip(rows) {
        let columns = "readiness (session, nth, item, is_true)";
        added &= insert(db, columns, params![id, nth, row.item.name(), row.is_true])?;
    }
    Ok(added)
}

pub(super) fn insert_decision(db: &Connection, id: &str, row: &DecisionRow) -> Added {
    let columns = "decisions (session, decision, gentler, first_set, sets_whole, seen_before_ms)";
    let DecisionRow { decision, gentler, first_set, sets_whole, seen_before_ms, .. } = row;
    let values = params![id, decision.name(), gentler, first_set, sets_whole, seen_before_ms];
    let mut added = insert(db, columns, values)?;
    for (nth, reason) in (0_u32..).zip(&row.reasons) {
        added &= insert(db, "decision_reasons (session, nth, reason)", params![id, nth, reason])?;
    }
    for (nth, given) in (0_u32..).zip(&row.given) {
        let columns = "given_steps (session, nth, drill, form, step)";
        let GivenRow { drill, form, step, .. } = given;
        added &= insert(db, columns, params![id, nth, drill, word(form), step])?;
    }
    Ok(added)
}

pub(super) fn insert_suitability(db: &Connection, row: &SuitabilityRow) -> Added {
    let mut added = true;
    for TopicRow { topic, answer } in &row.answers {
        let columns = "suitability (at, at_ms, partner, topic, answer)";
        let values = params![row.at.text(), row.at.ms(), row.partner, topic.name(), answer.name()];
        added &= insert(db, columns, values)?;
    }
    Ok(added)
}

pub(super) fn insert_clearance(db: &Connection, row: &ClearanceRow) -> Added {
    let columns = "clearances (at, at_ms, who, reason)";
    let mut added = insert(db, columns, params![row.at.text(), row.at.ms(), row.who, row.reason])?;
    for (nth, lifted) in (0_u32..).zip(&row.lifted) {
        let columns = "lifted (at_ms, who, nth, locked_by, what)";
        let values = params![row.at.ms(), row.who, nth, lifted.locked_by, word(&lifted.what)];
        added &= insert(db, columns, values)?;
    }
    Ok(added)
}

pub(super) fn readiness(db: &Connection, id: &str) -> rusqlite::Result<Vec<ReadyRow>> {
    let sql = "SELECT item, is_true FROM readiness WHERE session = ? ORDER BY nth";
    all(db, sql, [id], |row| Ok(ReadyRow { item: checked(row, 0)?, is_true: row.get(1)? }))
}

pub(super) fn decision(db: &Connection, id: &str) -> rusqlite::Result<Option<DecisionRow>> {
    let sql =
        "SELECT decision, gentler, first_set, sets_whole, seen_before_ms FROM decisions WHERE session = ?";
    let read = |row: &rusqlite::Row<'_>| {
        Ok(DecisionRow {
            decision: checked(row, 0)?,
            reasons: Vec::new(),
            gentler: row.get(1)?,
            first_set: row.get(2)?,
            sets_whole: row.get(3)?,
            seen_before_ms: row.get(4)?,
            given: Vec::new(),
        })
    };
    let Some(decision) = db.prepare_cached(sql)?.query_row([id], read).optional()? else { return Ok(None) };
    let sql = "SELECT reason FROM decision_reasons WHERE session = ? ORDER BY nth";
    let reasons = all(db, sql, [id], |row| row.get(0))?;
    let sql = "SELECT drill, form, step FROM given_steps WHERE session = ? ORDER BY nth";
    let given = all(db, sql, [id], |row| {
        Ok(GivenRow { drill: row.get(0)?, form: checked(row, 1)?, step: row.get(2)?, ladder: None })
    })?;
    Ok(Some(DecisionRow { reasons, given, ..decision }))
}

pub(super) fn suitability(db: &Connection) -> rusqlite::Result<Vec<SuitabilityRow>> {
    let sql = "SELECT at, partner, topic, answer FROM suitability ORDER BY at_ms, topic";
    let rows = all(db, sql, [], |row| {
        let answer = TopicRow { topic: checked(row, 2)?, answer: checked(row, 3)? };
        Ok((checked::<Stamp>(row, 0)?, row.get::<_, bool>(1)?, answer))
    })?;
    let mut found: Vec<SuitabilityRow> = Vec::new();
    for (at, partner, answer) in rows {
        match found.last_mut().filter(|last| last.at == at) {
            Some(last) => last.answers.push(answer),
            None => found.push(SuitabilityRow { at, partner, answers: vec![answer] }),
        }
    }
    Ok(found)
}

pub(super) fn clearances(db: &Connection) -> rusqlite::Result<Vec<ClearanceRow>> {
    let sql = "SELECT at, who, reason FROM clearances ORDER BY at_ms, who";
    let mut found = all(db, sql, [], |row| {
        Ok(ClearanceRow { at: checked(row, 0)?, who: row.get(1)?, reason: row.get(2)?, lifted: Vec::new() })
    })?;
    for row in &mut found {
        let sql = "SELECT locked_by, what FROM lifted WHERE at_ms = ? AND who = ? ORDER BY nth";
        row.lifted = all(db, sql, params![row.at.ms(), row.who], |row| {
            Ok(LiftedRow { locked_by: row.get(0)?, what: checked(row, 1)? })
        })?;
    }
    Ok(found)
}

#[cfg(test)]
mod test;
