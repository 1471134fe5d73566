//! Imports an export into this journal: all of it or nothing, and nothing twice. Of a rescue file from elsewhere it imports
//! what fits.

use std::fmt;

use rusqlite::{Connection, TransactionBehavior};

use super::adopt::insert_change;
use super::balance::{balance_tests, insert_balance_test};
use super::correction::{corrections, insert_correction};
use super::export::Export;
use super::fitness::{
    clearances, insert_clearance, insert_decision, insert_readiness, insert_suitability, suitability,
};
use super::incoming::{Incoming, What};
use super::keep::{
    insert_advice, insert_answer, insert_course, insert_delivery, insert_disturbance, insert_left_out,
    insert_mishap, insert_plan, insert_response, insert_routine, insert_session, insert_session_end,
    insert_set, insert_set_end, summarize_again,
};
use super::read;
use super::tryout::insert_tryout;
use super::{Journal, JournalError, rescue};
use counterpoise_core::record::{SessionEnd, SessionRecord, SetEnd, SetRecord, SuitabilityRow, TryoutRow};
use counterpoise_core::words::counted;

/// What an import did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Imported {
    /// Sessions that were not here before.
    pub added: usize,
    /// Sessions that were here already.
    pub known: usize,
}

impl fmt::Display for Imported {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} added, {} already there.", counted(self.added, "session"), self.known)
    }
}

/// Takes in the file called `name`. What is here already stays as it is; what the file knows more of is added.
///
/// # Errors
/// As [`Incoming::read`] and [`take_in`].
pub fn import(journal: &mut Journal, name: &str, bytes: &[u8]) -> Result<Imported, JournalError> {
    take_in(journal, &Incoming::read(name, bytes)?)
}

/// Takes in what was read. Whose it is was asked before.
///
/// # Errors
/// If the file says something else about a session than this journal does, or if the journal cannot be written. The
/// journal is then as it was, except that a rescue file leaves what fits.
pub fn take_in(journal: &mut Journal, incoming: &Incoming) -> Result<Imported, JournalError> {
    let name = &incoming.name;
    if journal.lock.is_none() {
        return Err(JournalError::ReadOnly { path: journal.path.clone() });
    }
    match &incoming.what {
        What::Export(export) => add(journal, name, export),
        What::Rescue(rescue) => {
            let was_here = journal.ids()?.contains(rescue.session());
            let refused = |error: rescue::Hindrance| JournalError::NotImported {
                file: name.clone(),
                reason: error.to_string(),
            };
            match rescue::apply(journal, rescue).map_err(refused)? {
                None => Ok(Imported { added: usize::from(!was_here), known: usize::from(was_here) }),
                Some(reason) => Err(JournalError::PartlyImported { file: name.clone(), reason }),
            }
        }
    }
}

/// Adds what the export called `name` knows more of.
///
/// # Errors
/// If its entries do not fit together, or it says something else about a session than this journal does. The journal is
/// then as it was.
pub(super) fn add(journal: &mut Journal, name: &str, export: &Export) -> Result<Imported, JournalError> {
    let refuse = |reason: String| JournalError::NotImported { file: name.to_owned(), reason };
    let path = journal.path.clone();
    let at = |source| JournalError::from_sqlite(&path, source);
    let change = journal.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(at)?;
    let mut imported = Imported::default();
    for session in &export.sessions {
        let place = |reason: &str| refuse(format!("session {}: {reason}", session.id));
        let added = add_session(&change, session).map_err(|error| match error.sqlite_error_code() {
            Some(rusqlite::ErrorCode::ConstraintViolation) => place("its entries do not fit together"),
            _ => at(error),
        })?;
        if let Some(what) = differs(&read::session(&change, &session.id).map_err(at)?, session) {
            return Err(place(&format!("{what} differs from the one in this journal, or occurs twice")));
        }
        *if added { &mut imported.added } else { &mut imported.known } += 1;
    }
    for row in &export.changes {
        insert_change(&change, row).map_err(at)?;
    }
    for row in &export.suitability {
        insert_suitability(&change, row).map_err(at)?;
        if !suitability(&change).map_err(at)?.iter().any(|here| says_the_same(here, row)) {
            let when = row.at.minute();
            return Err(refuse(format!(
                "the answers about suitability of {when} are not what this journal has"
            )));
        }
    }
    for row in &export.clearances {
        insert_clearance(&change, row).map_err(at)?;
        if !clearances(&change).map_err(at)?.contains(row) {
            let when = row.at.minute();
            return Err(refuse(format!("the clearance of {when} differs from the one in this journal")));
        }
    }
    for row in &export.tests {
        if !row.is_sound() {
            let when = row.at.minute();
            return Err(refuse(format!("the balance test {} of {when} has an invalid value", row.test)));
        }
        let added = insert_balance_test(&change, row).map_err(at)?;
        if !added && !balance_tests(&change).map_err(at)?.contains(row) {
            let when = row.at.minute();
            return Err(refuse(format!(
                "the balance test {} of {when} differs from the one in this journal",
                row.test
            )));
        }
    }
    for row in &export.corrections {
        let of = format!("the correction of session {} of {}", row.session, row.at.minute());
        if !row.is_sound() {
            return Err(refuse(format!("{of} says what it cannot")));
        }
        let added = insert_correction(&change, row)
            .map_err(|_| refuse(format!("{of} is of a session that is not there")))?;
        if !added && !corrections(&change).map_err(at)?.contains(row) {
            return Err(refuse(format!("{of} differs from the one in this journal")));
        }
    }
    change.commit().map_err(at)?;
    Ok(imported)
}

/// Whether these are the same answers of the same moment, in whichever order.
fn says_the_same(here: &SuitabilityRow, file: &SuitabilityRow) -> bool {
    let answers = here.answers.len() == file.answers.len() && contains(&here.answers, &file.answers);
    here.at == file.at && here.partner == file.partner && answers
}

/// Adds what is not there yet, and says whether the session itself was new.
fn add_session(db: &Connection, session: &SessionRecord) -> rusqlite::Result<bool> {
    let id = session.id.as_str();
    let added = insert_session(db, id, &session.start)?;
    for SetRecord { start, end, plans, delivered, responses, disturbed } in &session.sets {
        insert_set(db, id, start)?;
        for plan in plans {
            insert_plan(db, id, start.number, plan.plan, plan.paused_at_ms, &plan.cues)?;
        }
        for delivery in delivered {
            insert_delivery(db, id, start.number, delivery)?;
        }
        for row in responses {
            insert_response(db, id, start.number, row)?;
        }
        for row in disturbed {
            insert_disturbance(db, id, start.number, row)?;
        }
        if let Some(end) = end {
            insert_set_end(db, id, start.number, end)?;
        }
    }
    if let Some(row) = &session.tryout {
        insert_tryout(db, id, row)?;
    }
    if let Some(row) = &session.decided {
        insert_decision(db, id, row)?;
    }
    insert_readiness(db, id, &session.ready)?;
    for answer in &session.answers {
        insert_answer(db, id, answer)?;
    }
    for row in &session.left_out {
        insert_left_out(db, id, row)?;
    }
    for row in &session.mishaps {
        insert_mishap(db, id, row)?;
    }
    for row in &session.advised {
        insert_advice(db, id, row)?;
    }
    for row in &session.routines {
        insert_routine(db, id, row)?;
    }
    insert_course(db, id, &session.course)?;
    if let Some(end) = &session.end {
        insert_session_end(db, id, &end.at, end.why)?;
    }
    summarize_again(db, id)?;
    Ok(added)
}

/// The first part of `file` that is not in `here`. An end that was only found missing gives way to a known one.
fn differs(here: &SessionRecord, file: &SessionRecord) -> Option<String> {
    if here.start != file.start {
        return Some("its beginning".to_owned());
    }
    let numbers: Vec<u8> = file.sets.iter().map(|set| set.start.number).collect();
    for (place, set) in file.sets.iter().enumerate() {
        let number = set.start.number;
        let same = here.sets.iter().find(|known| known.start == set.start);
        let whole = same.is_some_and(|known| covers(known, set)) && !numbers[..place].contains(&number);
        if !whole {
            return Some(format!("set {number}"));
        }
    }
    if let Some(tried) = &file.tryout {
        let same = |here: &TryoutRow| {
            here.watched_by == tried.watched_by
                && here.partner == tried.partner
                && here.seen.starts_with(&tried.seen)
        };
        if !here.tryout.as_ref().is_some_and(same) {
            return Some("the try-out".to_owned());
        }
    }
    if file.decided.is_some() && here.decided != file.decided {
        return Some("what was decided".to_owned());
    }
    if !file.ready.is_empty() && here.ready != file.ready {
        return Some("an answer about readiness".to_owned());
    }
    if !contains(&here.answers, &file.answers) {
        return Some("an answer".to_owned());
    }
    if !contains(&here.left_out, &file.left_out) {
        return Some("a set that was left out".to_owned());
    }
    if !contains(&here.mishaps, &file.mishaps) {
        return Some("a grab or a fall".to_owned());
    }
    if !contains(&here.advised, &file.advised) {
        return Some("advice".to_owned());
    }
    if !contains(&here.routines, &file.routines) {
        return Some("a warm-up or cool-down".to_owned());
    }
    if !file.course.is_empty() && here.course != file.course {
        return Some("its floor course".to_owned());
    }
    let end = |session: &SessionRecord| session.end.as_ref().map(|end| (end.at.clone(), end.why));
    let known_end = end(file).is_none_or(|(_, why)| why == SessionEnd::Interrupted) || end(file) == end(here);
    (!known_end).then(|| "its end".to_owned())
}

fn covers(here: &SetRecord, file: &SetRecord) -> bool {
    let known_end =
        file.end.as_ref().is_none_or(|end| end.why == SetEnd::Interrupted) || file.end == here.end;
    known_end
        && contains(&here.plans, &file.plans)
        && contains(&here.delivered, &file.delivered)
        && contains(&here.responses, &file.responses)
        && contains(&here.disturbed, &file.disturbed)
}

/// Whether every row of `file` is among those of `here`, and none stands in `file` twice.
fn contains<T: PartialEq>(here: &[T], file: &[T]) -> bool {
    file.len() <= here.len() && file.iter().all(|row| here.contains(row))
}

#[cfg(test)]
mod test;
