//! The tables of a journal, and the migrations that bring an older one up to date.

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::backup::Backup;
use rusqlite::{Connection, TransactionBehavior, params};

use super::folder::{make_private_file, sync_file};
use super::lines::{NotKept, insert};
use super::{JournalError, summaries};
use crate::entropy;
use counterpoise_core::record::{Id, Line, old};

/// What `SQLite` calls the file's application: `CoPo` in ASCII.
const APPLICATION_ID: i64 = 0x436F_506F;

/// Each change of the tables before there were entries, oldest first.
const OLD: &[&str] = &[
    include_str!("schema/1.sql"),
    include_str!("schema/2.sql"),
    include_str!("schema/3.sql"),
    include_str!("schema/fitness.sql"),
    include_str!("schema/balance.sql"),
    include_str!("schema/tryout.sql"),
    include_str!("schema/corrections.sql"),
];

/// The version from which on a journal is a list of entries.
const ENTRIES: i64 = OLD.len() as i64 + 1;

/// How much stays free in the file, so that a whole session fits although the disk fills meanwhile. Forty cues,
/// planned anew after several pauses, take about 50 KiB [derived].
const ROOM_BYTES: i64 = 256 * 1024;

/// Refuses a file that is not ours, before anything is written to it.
pub(super) fn recognize(db: &Connection, path: &Path) -> Result<(), JournalError> {
    let at = |source| JournalError::from_sqlite(path, source);
    let application = number(db, "application_id").map_err(at)?;
    let tables: i64 = db.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0)).map_err(at)?;
    let found = number(db, "user_version").map_err(at)?;
    let fresh = application == 0 && found == 0 && tables == 0;
    if application != APPLICATION_ID && !fresh {
        return Err(JournalError::NotOurs { path: path.to_owned() });
    }
    if found > ENTRIES {
        return Err(JournalError::Newer { path: path.to_owned(), found, known: ENTRIES });
    }
    Ok(())
}

/// The version of the tables; 0 where there are none yet.
pub(super) fn version(db: &Connection) -> rusqlite::Result<i64> {
    number(db, "user_version")
}

/// Whether the file would have to be changed before it can be read.
pub(super) fn is_old(db: &Connection) -> rusqlite::Result<bool> {
    Ok(version(db)? < ENTRIES)
}

/// Why a journal could not be brought up to date. It is as it was.
#[derive(Debug, thiserror::Error)]
pub(super) enum NotMigrated {
    #[error("{0}")]
    Sqlite(#[from] rusqlite::Error),
    #[error("what version {version} kept cannot be read: {reason}")]
    Unreadable { version: i64, reason: String },
}

/// Applies what is missing, all of it or nothing.
pub(super) fn migrate(db: &mut Connection) -> Result<(), NotMigrated> {
    let done = version(db)?;
    if done >= ENTRIES {
        return Ok(());
    }
    // Tables go, and rows that refer to each other with them.
    db.pragma_update(None, "foreign_keys", false)?;
    let change = db.transaction_with_behavior(TransactionBehavior::Immediate)?;
    for migration in OLD.iter().skip(done as usize) {
        change.execute_batch(migration)?;
    }
    let kept: String = change.query_row(include_str!("schema/old_export.sql"), [], |row| row.get(0))?;
    let lines = old::lines_of_tables(kept.as_bytes())
        .map_err(|error| NotMigrated::Unreadable { version: done, reason: error.to_string() })?;
    change.execute_batch(include_str!("schema/drop_old.sql"))?;
    change.execute_batch(include_str!("schema/entries.sql"))?;
    change.execute(
        "INSERT INTO journal VALUES (?, ?)",
        params![journal_id(&lines).as_bytes(), fresh().as_bytes()],
    )?;
    for line in &lines {
        insert(&change, line).map_err(|error| match error {
            NotKept::Sqlite(error) => NotMigrated::Sqlite(error),
            NotKept::Differs(_) => NotMigrated::Unreadable { version: done, reason: error.to_string() },
        })?;
    }
    summaries::keep(&change)?;
    change.pragma_update(None, "application_id", APPLICATION_ID)?;
    change.pragma_update(None, "user_version", ENTRIES)?;
    change.commit()?;
    Ok(())
}

/// A journal that is made now gets a random id. One that was made before ids were has the one that its first session gives
/// it, on every computer that has it.
fn journal_id(lines: &[Line]) -> Id {
    let first = lines.iter().filter(|line| Some(line.id) == line.session).min_by_key(|line| line.at_ms);
    first.map_or_else(fresh, |line| line.id)
}

fn fresh() -> Id {
    // Two journals that were made without random numbers would be told apart by nothing: the system has some, or no practice
    // begins.
    entropy::id().unwrap_or_else(|error| Id::of(&error.to_string()))
}

/// A copy of a journal of an earlier version, on the disk before anything is rewritten. `None` where there is nothing to
/// copy.
pub(super) fn copy_before_migrating(db: &Connection, path: &Path) -> Result<Option<PathBuf>, JournalError> {
    let at = |source| JournalError::from_sqlite(path, source);
    let version = version(db).map_err(at)?;
    if version == 0 || version >= ENTRIES {
        return Ok(None);
    }
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(format!(".version-{version}"));
    let copy = path.with_file_name(name);
    let unwritable = |source| JournalError::Unwritable { path: copy.clone(), source };
    make_private_file(&copy)?;
    let to = |source| JournalError::from_sqlite(&copy, source);
    let mut new = Connection::open(&copy).map_err(to)?;
    let copied =
        Backup::new(db, &mut new).and_then(|backup| backup.run_to_completion(1_000, Duration::ZERO, None));
    drop(new);
    if let Err(source) = copied {
        // Half a copy would only mislead. That it cannot be removed is no reason to say something else.
        let _ = std::fs::remove_file(&copy);
        return Err(to(source));
    }
    sync_file(&copy).map_err(unwritable)?;
    Ok(Some(copy))
}

/// Proves that the file can be written, and leaves [`ROOM_BYTES`] free in it. A file system that compresses may
/// still run out; then the entries go to a rescue file.
pub(super) fn make_room(db: &Connection) -> rusqlite::Result<()> {
    let free = number(db, "freelist_count")? * number(db, "page_size")?;
    let bytes = if free < ROOM_BYTES { ROOM_BYTES } else { 1 };
    db.execute("INSERT INTO room (bytes) VALUES (zeroblob(?1))", [bytes])?;
    db.execute("DELETE FROM room", [])?;
    Ok(())
}

/// The tables as the version with this many migrations made them.
#[cfg(test)]
pub(super) fn made_by(db: &Connection, version: usize) -> rusqlite::Result<()> {
    for migration in &OLD[..version] {
        db.execute_batch(migration)?;
    }
    db.pragma_update(None, "application_id", APPLICATION_ID)?;
    db.pragma_update(None, "user_version", version as i64)
}

fn number(db: &Connection, pragma: &str) -> rusqlite::Result<i64> {
    db.pragma_query_value(None, pragma, |row| row.get(0))
}

#[cfg(test)]
mod test;
