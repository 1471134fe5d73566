//! Journals of other people, read without changing them: a file, one of an earlier version, an export, or several of one
//! person merged.

use std::io;
use std::path::Path;
use std::time::Duration;

use rusqlite::backup::Backup;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};

use super::incoming::Incoming;
use super::safety_file::Guard;
use super::{BUSY, Journal, JournalError, import, in_memory, schema};

/// More than there are different questions to a journal: each is prepared once.
const STATEMENTS: usize = 64;

impl Journal {
    /// Opens the file of somebody else's journal to read it, and touches nothing. One of an earlier version is copied into
    /// memory and brought up to date there. One that a crash left half written is refused: to put it right would change it.
    ///
    /// # Errors
    /// If the file is not a Counterpoise journal, was made by a later version, or cannot be read as it is.
    pub fn peek(path: &Path) -> Result<Self, JournalError> {
        let unreadable = |source| JournalError::Unreadable { path: path.to_owned(), source };
        let metadata = path.metadata().map_err(unreadable)?;
        // To open a pipe would wait for whoever writes into it.
        if !metadata.is_file() {
            return Err(unreadable(io::Error::other("it is no file")));
        }
        if metadata.len() == 0 {
            return Err(JournalError::Empty { path: path.to_owned() });
        }
        Self::peeked(path).map_err(|error| match error {
            // `SQLite` would have to undo what was half done, and may not write.
            JournalError::ReadOnly { path } => JournalError::HalfWritten { path },
            other => other,
        })
    }

    fn peeked(path: &Path) -> Result<Self, JournalError> {
        let at = |source| JournalError::from_sqlite(path, source);
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let db = Connection::open_with_flags(path, flags).map_err(at)?;
        db.busy_timeout(BUSY).map_err(at)?;
        db.set_prepared_statement_cache_capacity(STATEMENTS);
        // Else `SQLite` plans a question anew for each value that it is asked with.
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true).map_err(at)?;
        schema::recognize(&db, path)?;
        let in_practice = path.parent().is_some_and(super::lock::is_locked);
        let db = current(db, path)?;
        let alone = path.file_name() != Some("journal.sqlite".as_ref());
        let journal = Self { db, path: path.to_owned(), lock: None, in_practice, guard: Guard::Nothing };
        if alone { Ok(journal) } else { journal.under_its_record() }
    }

    /// The journal that an export holds, in memory. `path` is where the export lies.
    ///
    /// # Errors
    /// If it is broken, of another kind, or its entries do not fit together: whatever an import would refuse.
    pub fn of_export(path: &Path, bytes: &[u8]) -> Result<Self, JournalError> {
        let name = path.display().to_string();
        let incoming = Incoming::read(&name, bytes)?.into_export()?;
        let mut journal = Self::nowhere(path)?;
        import::add(&mut journal, &incoming)?;
        journal.read_only()
    }

    /// Several journals of one person as one, in memory: what is in more than one is there once.
    ///
    /// # Errors
    /// If one cannot be read, or says something else about the same entry than those before it; the error names that one.
    pub fn together(journals: &[Self]) -> Result<Self, JournalError> {
        let mut all = Self::nowhere(journals.first().map_or(Path::new(""), Self::path))?;
        for journal in journals {
            import::add(&mut all, &Incoming::of(journal)?)?;
        }
        all.read_only()
    }

    fn nowhere(path: &Path) -> Result<Self, JournalError> {
        let db = in_memory(path)?;
        Ok(Self { db, path: path.to_owned(), lock: None, in_practice: false, guard: Guard::Nothing })
    }

    fn read_only(self) -> Result<Self, JournalError> {
        self.db.pragma_update(None, "query_only", true).map_err(|source| self.sqlite(source))?;
        Ok(self)
    }
}

/// The database, or a copy of it in memory with the tables of this version.
pub(super) fn current(db: Connection, path: &Path) -> Result<Connection, JournalError> {
    let at = |source| JournalError::from_sqlite(path, source);
    if !schema::is_old(&db).map_err(at)? {
        return Ok(db);
    }
    let mut new = copied(&db).map_err(at)?;
    super::migrate(&mut new, path)?;
    new.pragma_update(None, "query_only", true).map_err(at)?;
    Ok(new)
}

fn copied(old: &Connection) -> rusqlite::Result<Connection> {
    let mut new = Connection::open_in_memory()?;
    // In memory a copy must have pages of the same size.
    let page_size: i64 = old.pragma_query_value(None, "page_size", |row| row.get(0))?;
    new.pragma_update(None, "page_size", page_size)?;
    Backup::new(old, &mut new)?.run_to_completion(1_000, Duration::from_millis(50), None)?;
    Ok(new)
}

#[cfg(test)]
mod test;
