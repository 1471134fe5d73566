//! Imports an export into this journal: all of it or nothing, and nothing twice. Of a rescue file from elsewhere it imports
//! what fits.

use std::collections::HashSet;
use std::fmt;

use rusqlite::{Transaction, TransactionBehavior};

use super::incoming::Incoming;
use super::keep::not_kept;
use super::lines::{self, NotKept, insert};
use super::{Journal, JournalError, rescue};
use counterpoise_core::record::{Contents, Id, Lifted, Misfit};
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
    if journal.lock.is_none() {
        return Err(JournalError::ReadOnly { path: journal.path.clone() });
    }
    if !incoming.is_rescue {
        return add(journal, incoming);
    }
    incoming.only_printable()?;
    let file = || incoming.name.clone();
    let imported = counts(&journal.contents()?, incoming);
    let refused = rescue::apply(journal, &incoming.lines)
        .map_err(|error| JournalError::NotImported { file: file(), reason: error.to_string() })?;
    match refused {
        None => Ok(imported),
        Some(reason) => Err(JournalError::PartlyImported { file: file(), reason }),
    }
}

/// Adds what the file knows more of: the union of both, by the ids of the entries.
///
/// # Errors
/// If its entries do not fit together, or it says something else about an entry than this journal does. The journal is
/// then as it was.
pub(super) fn add(journal: &mut Journal, incoming: &Incoming) -> Result<Imported, JournalError> {
    let refuse = |reason: String| JournalError::NotImported { file: incoming.name.clone(), reason };
    let before = journal.contents()?;
    let path = journal.path.clone();
    let at = |source| JournalError::from_sqlite(&path, source);
    let change = Transaction::new_unchecked(&journal.db, TransactionBehavior::Immediate).map_err(at)?;
    for line in &incoming.lines {
        insert(&change, line).map_err(|error| match error {
            NotKept::Differs(_) => refuse(error.to_string()),
            NotKept::Sqlite(_) => not_kept(&path, error),
        })?;
    }
    // A journal in which nothing was kept becomes the one that is moved here.
    let nothing_before = before == Contents::default();
    if let Some(id) = incoming.journal.filter(|_| nothing_before) {
        change.execute("UPDATE journal SET id = ?", [id.as_bytes()]).map_err(at)?;
    }
    let after = Contents::of(lines::all(&change).map_err(at)?);
    let known: HashSet<&Misfit> = before.misfits.iter().collect();
    if let Some(misfit) = after.misfits.iter().find(|misfit| !known.contains(misfit)) {
        return Err(refuse(misfit.to_string()));
    }
    let guarded = journal.guard_before(&change, &incoming.lines);
    change.commit().map_err(at)?;
    journal.summarize();
    guarded?;
    if let (Some(file), true) = (journal.guard.file(), nothing_before) {
        file.rename(journal.id()?).map_err(|source| journal.unguarded(source))?;
    }
    // What the file brings a clearance of is lifted, and nothing that was lifted before.
    let was_lifted = before.lifted();
    let lifted: Vec<Lifted> = after.lifted().into_iter().filter(|one| !was_lifted.contains(one)).collect();
    journal.guard_after(&incoming.lines, &lifted)?;
    Ok(counts(&before, incoming))
}

fn counts(before: &Contents, incoming: &Incoming) -> Imported {
    let here: HashSet<Id> = before.sessions.iter().map(|session| session.id).collect();
    let there: HashSet<Id> = incoming.lines.iter().filter_map(|line| line.session).collect();
    let known = there.intersection(&here).count();
    Imported { added: there.len() - known, known }
}

#[cfg(test)]
mod test;
