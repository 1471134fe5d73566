//! The tables of a journal, and the migrations that bring an older one up to date.

use std::path::Path;

use rusqlite::{Connection, TransactionBehavior};

use super::JournalError;

/// What `SQLite` calls the file's application: `CoPo` in ASCII.
const APPLICATION_ID: i64 = 0x436F_506F;

/// Each change of the tables, oldest first. Never edit one that was released: add another.
const MIGRATIONS: &[&str] = &[
    include_str!("schema/1.sql"),
    include_str!("schema/2.sql"),
    include_str!("schema/3.sql"),
    include_str!("schema/fitness.sql"),
    include_str!("schema/balance.sql"),
    include_str!("schema/tryout.sql"),
    include_str!("schema/corrections.sql"),
];

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
    if found > newest() {
        return Err(JournalError::Newer { path: path.to_owned(), found, known: newest() });
    }
    Ok(())
}

/// Refuses a file that would have to be changed before it can be read.
pub(super) fn up_to_date(db: &Connection, path: &Path) -> Result<(), JournalError> {
    let found = number(db, "user_version").map_err(|source| JournalError::from_sqlite(path, source))?;
    if found < newest() {
        return Err(JournalError::Older { path: path.to_owned(), found, known: newest() });
    }
    Ok(())
}

/// Applies what is missing, all of it or nothing.
pub(super) fn migrate(db: &mut Connection) -> rusqlite::Result<()> {
    apply(db, MIGRATIONS)
}

fn apply(db: &mut Connection, migrations: &[&str]) -> rusqlite::Result<()> {
    let change = db.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let done = number(&change, "user_version")?;
    for migration in migrations.iter().skip(done as usize) {
        change.execute_batch(migration)?;
    }
    // Unchanged values would make every opening write.
    if done < migrations.len() as i64 {
        change.pragma_update(None, "application_id", APPLICATION_ID)?;
        change.pragma_update(None, "user_version", migrations.len() as i64)?;
    }
    change.commit()
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
pub(super) fn made_by(db: &mut Connection, version: usize) -> rusqlite::Result<()> {
    apply(db, &MIGRATIONS[..version])
}

/// How many versions there were.
#[cfg(test)]
pub(super) fn versions() -> usize {
    MIGRATIONS.len()
}

fn newest() -> i64 {
    MIGRATIONS.len() as i64
}

fn number(db: &Connection, pragma: &str) -> rusqlite::Result<i64> {
    db.pragma_query_value(None, pragma, |row| row.get(0))
}

#[cfg(test)]
mod test;
