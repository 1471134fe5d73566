//! Supervised try-outs: into their tables and back, with who watched, which partner, and what was seen.

use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

use super::table::{Added, all, checked, insert};
use super::{Journal, JournalError};
use counterpoise_core::record::{SeenRow, SessionId, TryoutRow};

impl Journal {
    /// Keeps what was seen in a try-out, after what was kept of it before.
    ///
    /// # Errors
    /// If the journal cannot be written, or the session is no try-out.
    pub fn keep_seen(&mut self, session: &SessionId, seen: &[SeenRow]) -> Result<(), JournalError> {
        if self.lock.is_none() {
            return Err(JournalError::ReadOnly { path: self.path.clone() });
        }
        let path = self.path.clone();
        let at = |source| JournalError::from_sqlite(&path, source);
        let change = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(at)?;
        let before = tryout(&change, session.as_str()).map_err(at)?.map_or(0, |row| row.seen.len());
        insert_seen(&change, session.as_str(), before, seen).map_err(at)?;
        change.commit().map_err(at)
    }
}

pub(super) fn insert_tryout(db: &Connection, id: &str, row: &TryoutRow) -> Added {
    let TryoutRow { watched_by, partner, seen } = row;
    let added = insert(db, "tryouts (session, watched_by, partner)", params![id, watched_by, partner])?;
    Ok(added & insert_seen(db, id, 0, seen)?)
}

fn insert_seen(db: &Connection, id: &str, from: usize, seen: &[SeenRow]) -> Added {
    let mut added = true;
    for (nth, SeenRow { what, words }) in (from as u32..).zip(seen) {
        added &= insert(db, "seen (session, nth, what, words)", params![id, nth, what.name(), words])?;
    }
    Ok(added)
}

pub(super) fn tryout(db: &Connection, id: &str) -> rusqlite::Result<Option<TryoutRow>> {
    let sql = "SELECT watched_by, partner FROM tryouts WHERE session = ?";
    let read = |row: &rusqlite::Row<'_>| {
        Ok(TryoutRow { watched_by: row.get(0)?, partner: row.get(1)?, seen: Vec::new() })
    };
    let Some(row) = db.prepare_cached(sql)?.query_row([id], read).optional()? else { return Ok(None) };
    let sql = "SELECT what, words FROM seen WHERE session = ? ORDER BY nth";
    let seen = all(db, sql, [id], |row| Ok(SeenRow { what: checked(row, 0)?, words: row.get(1)? }))?;
    Ok(Some(TryoutRow { seen, ..row }))
}

#[cfg(test)]
mod test;
