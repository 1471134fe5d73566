//! What the rules need, kept beside the entries, so that it need not be folded at each start. Where it is missing, old, or
//! may not be written, it is folded anew.

use rusqlite::{Connection, OptionalExtension, params};

use super::{Journal, JournalError, lines};
use counterpoise_core::course::summaries::{FOLD, Outside, Summaries, Summary};
use counterpoise_core::course::trainee::Trainee;
use counterpoise_core::record::{ChangeRow, Contents, Id};

impl Journal {
    /// What is known of the person: by the journal, and by the safety record beside it.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn trainee(&self) -> Result<Trainee, JournalError> {
        let summaries = self.summaries()?;
        let going_on = self.lock.is_none() && summaries.has_open();
        let mut known = summaries.trainee().beside(&self.guard.standing()).0;
        known.going_on = going_on;
        Ok(known)
    }

    /// The summary as it is kept, or would be.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn summaries(&self) -> Result<Summaries, JournalError> {
        let summaries = self.consistent(|db| Ok(current(db)?.0))?;
        // Where nobody practices, what has no end was interrupted.
        if summaries.has_open() && !self.in_practice {
            Ok(Summaries::of(&self.contents()?))
        } else {
            Ok(summaries)
        }
    }

    /// The prescriptions that came into use or were not taken.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn changes(&self) -> Result<Vec<ChangeRow>, JournalError> {
        Ok(self.outside()?.changes)
    }

    /// The part of the summary that is of no session. Where it is current, its sessions are not read.
    pub(super) fn outside(&self) -> Result<Outside, JournalError> {
        self.consistent(|db| match kept(db)? {
            Some(kept) if kept.upto == lines::last_row(db)? => Ok(kept.outside),
            _ => Ok(current(db)?.0.outside),
        })
    }

    /// Brings the summary in the file up to date. That it cannot be is no error: then it is folded at each start.
    pub(super) fn summarize(&mut self) {
        let kept = self.db.transaction().and_then(|change| {
            keep(&change)?;
            change.commit()
        });
        // The summary is as it was, and nothing is decided by it that the entries do not say.
        let _ = kept;
    }
}

/// What the journal alone knows of the person.
pub(super) fn known(db: &Connection) -> rusqlite::Result<Trainee> {
    Ok(current(db)?.0.trainee())
}

/// The summary, and the sessions whose kept one is not current; `None`: all of it.
fn current(db: &Connection) -> rusqlite::Result<(Summaries, Option<Vec<Id>>)> {
    let Some(Kept { upto, sessions: count, outside }) = kept(db)? else { return anew(db) };
    let mut sessions = Vec::new();
    let mut statement = db.prepare_cached("SELECT summary FROM summaries")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let Ok(summary) = postcard::from_bytes::<Summary>(row.get_ref(0)?.as_blob()?) else {
            return anew(db);
        };
        sessions.push(summary);
    }
    // A practice that is missing here could have locked.
    if sessions.len() as i64 != count {
        return anew(db);
    }
    sessions.sort_unstable_by_key(|summary| summary.place);
    let mut summaries = Summaries { sessions, outside };
    if lines::last_row(db)? == upto {
        return Ok((summaries, Some(Vec::new())));
    }
    // What is outside of sessions, or came without names, can bear on any session. And an import can put a line before others
    // of its writer.
    let sql = "SELECT EXISTS (SELECT 1 FROM entries WHERE rowid > ? AND (session IS NULL OR format = 0 OR writer <> \
               (SELECT writer FROM journal)))";
    if db.prepare_cached(sql)?.query_row([upto], |row| row.get(0))? {
        return anew(db);
    }
    let newer = Summaries::of(&Contents::of(lines::of_sessions_after(db, upto)?)).sessions;
    let ids = newer.iter().map(|summary| summary.place.id()).collect();
    summaries.replace(newer);
    Ok((summaries, Some(ids)))
}

/// What is kept by the rules of today.
struct Kept {
    /// Up to which line.
    upto: i64,
    /// Of how many sessions.
    sessions: i64,
    /// Of the rest.
    outside: Outside,
}

fn kept(db: &Connection) -> rusqlite::Result<Option<Kept>> {
    let sql = "SELECT upto, sessions, outside FROM summarized WHERE fold = ?";
    let read = |row: &rusqlite::Row<'_>| Ok((row.get(0)?, row.get(1)?, row.get::<_, String>(2)?));
    let kept: Option<(i64, i64, String)> = db.prepare_cached(sql)?.query_row([FOLD], read).optional()?;
    Ok(kept.and_then(|(upto, sessions, outside)| {
        Some(Kept { upto, sessions, outside: serde_json::from_str(&outside).ok()? })
    }))
}

fn anew(db: &Connection) -> rusqlite::Result<(Summaries, Option<Vec<Id>>)> {
    Ok((Summaries::of(&Contents::of(lines::all(db)?)), None))
}

/// Keeps what is current.
pub(super) fn keep(db: &Connection) -> rusqlite::Result<()> {
    let (summaries, changed) = current(db)?;
    if changed.as_ref().is_some_and(Vec::is_empty) {
        return Ok(());
    }
    if changed.is_none() {
        db.execute("DELETE FROM summaries", [])?;
    }
    let is_changed = |id: Id| changed.as_ref().is_none_or(|ids| ids.contains(&id));
    for summary in summaries.sessions.iter().filter(|summary| is_changed(summary.place.id())) {
        let bytes = postcard::to_allocvec(summary).expect("a summary has no form of its own");
        let sql = "INSERT INTO summaries VALUES (?, ?) ON CONFLICT (session) DO UPDATE SET summary = excluded.summary";
        db.prepare_cached(sql)?.execute(params![summary.place.id().as_bytes(), bytes])?;
    }
    let outside = serde_json::to_string(&summaries.outside).expect("its keys are text");
    db.execute("DELETE FROM summarized", [])?;
    let sessions = summaries.sessions.len() as i64;
    let values = params![FOLD, lines::last_row(db)?, sessions, outside];
    db.execute("INSERT INTO summarized VALUES (?, ?, ?, ?)", values)?;
    Ok(())
}
