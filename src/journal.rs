//! Where a person's practice is kept: one folder with one `SQLite` file that only its owner can read. The lines that it keeps
//! are those of `record` in the core, and what they tell is folded there.
//!
//! ```text
//! Folder::find -> lock -> Journal::open -> Writer::start -> keep(Entry) ... close
//!         \-----> Journal::look -> list, show, export
//! a file -> Journal::peek, an export -> Journal::of_export: read, and left as they are
//! ```
//!
//! To practice takes the [`Lock`]; to look does not. Nothing is overwritten: a line is added once. What could not be written goes to a rescue file, which the next opening takes in.

use std::path::{Path, PathBuf};
use std::time::Duration;

use counterpoise_core::record::{Contents, Id, SessionRecord};
use rusqlite::{Connection, OpenFlags};

pub mod erase;
mod error;
pub mod export;
pub mod folder;
pub mod import;
mod in_use;
pub mod incoming;
mod keep;
mod lines;
mod lock;
mod others;
pub mod rescue;
mod safety;
mod safety_file;
#[cfg(test)]
pub(crate) mod sample;
mod schema;
mod sentry;
mod summaries;
pub mod writer;

pub use error::JournalError;
pub use folder::Folder;
pub use in_use::Altered;
pub use incoming::{Holds, Incoming};
pub use lock::Lock;
pub use safety::SafetyNotice;
use safety_file::Guard;
pub use writer::{Closed, Status, Writer};

/// How long a commit waits for another program that is reading the file.
const BUSY: Duration = Duration::from_millis(1_500);

/// How many bytes the rollback file has. A commit of one entry changes ten pages or so of 4 KiB [derived].
const ROLLBACK_BYTES: u64 = 128 * 1024;

/// A journal that is open: for practice, with the lock, or only to look.
#[derive(Debug)]
pub struct Journal {
    db: Connection,
    path: PathBuf,
    lock: Option<Lock>,
    /// A practice may be going on: here, or in another window.
    in_practice: bool,
    guard: Guard,
}

/// Something that the opening of a journal did, for the person to know.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Notice {
    /// A rescue file was taken in.
    #[error("what could not be saved last time is in the journal now (from {0})")]
    Rescued(PathBuf),
    /// A rescue file could not be taken in; it stays where it is.
    #[error("the rescue file {file} could not be taken in now, and the next start tries again: {reason}")]
    NotRescued {
        /// Which.
        file: PathBuf,
        /// Why not.
        reason: String,
    },
    /// A rescue file holds something that can never be taken in; it has a new name, and is not tried again.
    #[error(
        "something of an earlier practice is not in the journal. It is kept in {file}: show that file to whoever helps you \
         with this computer ({reason})"
    )]
    SetAside {
        /// Its new name.
        file: PathBuf,
        /// What does not fit.
        reason: String,
    },
    /// A file that was set aside holds something that may lock.
    #[error(
        "practice is locked: {0} holds answers that may lock practice and are not in the journal. If you are unwell now, call \
         your local emergency number. Show the file to whoever helps you with this computer; once a clinician has cleared you: \
         counterpoise clear"
    )]
    Barred(PathBuf),
    /// The safety record and the journal differ.
    #[error("{0}")]
    Safety(SafetyNotice),
    /// Sessions without an end were closed as interrupted.
    #[error("{}", interrupted(*.0))]
    Interrupted(usize),
    /// The journal was of an earlier version.
    #[error("the journal is in a new form now; as it was, it is kept in {0}")]
    Renewed(PathBuf),
    /// Something in it is kept and not read.
    #[error("{0}")]
    Unread(String),
}

fn interrupted(sessions: usize) -> String {
    match sessions {
        1 => "an earlier practice had no end, and is kept as interrupted".to_owned(),
        _ => format!("{sessions} earlier practices had no end, and are kept as interrupted"),
    }
}

impl Journal {
    /// Opens the journal for practice: makes it on first use, brings an older one up to date, sees to it that a
    /// whole session can be written, takes in rescue files and closes what was interrupted.
    ///
    /// # Errors
    /// If the file is not a Counterpoise journal, was made by a newer version, cannot be written, or there is no
    /// room. What was there is then unchanged.
    pub fn open(lock: Lock) -> Result<(Self, Vec<Notice>), JournalError> {
        Self::open_within(lock, None)
    }

    /// The same, in a file that may hold at most `pages` pages: a full disk, for tests.
    fn open_within(lock: Lock, pages: Option<u32>) -> Result<(Self, Vec<Notice>), JournalError> {
        let path = lock.folder().journal_file();
        let at = |source| JournalError::from_sqlite(&path, source);
        folder::make_private_file(&path)?;
        let mut db = Connection::open_with_flags(&path, flags()).map_err(at)?;
        db.busy_timeout(BUSY).map_err(at)?;
        schema::recognize(&db, &path)?;
        if let Some(pages) = pages {
            db.pragma_update(None, "max_page_count", pages).map_err(at)?;
        }
        prepare(&db).map_err(at)?;
        let copy = schema::copy_before_migrating(&db, &path)?;
        migrate(&mut db, &path)?;
        keep_rollback(&db, &path)?;
        let mut journal = Self { db, path, lock: Some(lock), in_practice: true, guard: Guard::Nothing };
        let mut notices: Vec<Notice> = copy.into_iter().map(Notice::Renewed).collect();
        notices.extend(journal.open_guard()?);
        notices.extend(rescue::take_in(&mut journal));
        let closed = journal.close_interrupted()?;
        if closed > 0 {
            notices.push(Notice::Interrupted(closed));
        }
        journal.summarize();
        notices.extend(journal.agree()?);
        schema::make_room(&journal.db).map_err(|source| journal.sqlite(source))?;
        rescue::make_spare(journal.path.parent().unwrap_or(Path::new("")))?;
        notices.extend(journal.outside()?.unread.into_iter().map(Notice::Unread));
        Ok((journal, notices))
    }

    /// Opens the journal to look at it. It works beside a practice that is going on, and changes nothing; where
    /// nothing has been practiced yet, it is empty. One of an earlier version is brought up to date in memory.
    ///
    /// # Errors
    /// If the file is not a Counterpoise journal, was made by another version, or cannot be read.
    pub fn look(folder: &Folder) -> Result<Self, JournalError> {
        let path = folder.journal_file();
        let at = |source| JournalError::from_sqlite(&path, source);
        let empty = match path.metadata() {
            Ok(metadata) => metadata.is_file() && metadata.len() == 0,
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => true,
            Err(error) => return Err(JournalError::Unreadable { path, source: error }),
        };
        let db = if empty {
            in_memory(&path)?
        } else {
            // Opened for writing, because what a crash left half done is undone by the first to look.
            let db = Connection::open_with_flags(&path, flags()).map_err(at)?;
            db.busy_timeout(BUSY).map_err(at)?;
            schema::recognize(&db, &path)?;
            others::current(db, &path)?
        };
        db.pragma_update(None, "query_only", true).map_err(at)?;
        let in_practice = folder.is_locked();
        Self { db, path, lock: None, in_practice, guard: Guard::Nothing }.under_its_record()
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The folder, if this journal was opened for practice.
    pub fn folder(&self) -> Option<&Folder> {
        self.lock.as_ref().map(Lock::folder)
    }

    /// Everything in it, as of one moment.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn contents(&self) -> Result<Contents, JournalError> {
        let mut contents = self.consistent(|db| Ok(Contents::of(lines::all(db)?)))?;
        self.settle(&mut contents);
        Ok(contents)
    }

    /// Decides what a session without an end is: where nobody practices, it was interrupted, as the next start will keep it.
    fn settle(&self, contents: &mut Contents) {
        if !self.in_practice {
            let open = contents.sessions.iter_mut().filter(|session| session.end.is_none());
            open.for_each(SessionRecord::interrupt);
        }
    }

    /// What tells this journal from every other one.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn id(&self) -> Result<Id, JournalError> {
        self.consistent(|db| db.query_row("SELECT id FROM journal", [], |row| row.get(0))).map(lines::id)
    }

    /// The session with this id, or with these first digits of one; `last` is the newest.
    ///
    /// # Errors
    /// If there is none, or more than one, or the file cannot be read.
    pub fn find(&self, which: &str) -> Result<SessionRecord, JournalError> {
        find(&self.contents()?, which).cloned()
    }

    fn pen(&self) -> Result<lines::Pen, JournalError> {
        self.consistent(lines::Pen::of)
    }

    /// Reads within one transaction, so that a practice going on beside changes nothing in between.
    fn consistent<T>(
        &self,
        read: impl FnOnce(&Connection) -> rusqlite::Result<T>,
    ) -> Result<T, JournalError> {
        let reading = self.db.unchecked_transaction().map_err(|source| self.sqlite(source))?;
        read(&reading).map_err(|source| self.sqlite(source))
    }

    fn sqlite(&self, source: rusqlite::Error) -> JournalError {
        JournalError::from_sqlite(&self.path, source)
    }
}

/// The session of these contents, as [`Journal::find`] finds it.
///
/// # Errors
/// If no session fits, or more than one.
pub(crate) fn find<'a>(contents: &'a Contents, which: &str) -> Result<&'a SessionRecord, JournalError> {
    let sessions = &contents.sessions;
    let wanted = which.to_ascii_lowercase();
    let begins = |session: &&SessionRecord| !wanted.is_empty() && session.id.to_string().starts_with(&wanted);
    let mut found = sessions.iter().filter(begins);
    let session = match (wanted.as_str(), found.next(), found.next()) {
        ("last", _, _) => sessions.last(),
        (_, Some(_), Some(_)) => return Err(JournalError::Ambiguous(which.to_owned())),
        (_, found, _) => found,
    };
    session.ok_or_else(|| JournalError::NoSuchSession(which.to_owned()))
}

fn flags() -> OpenFlags {
    OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX
}

/// A journal that is nowhere, with nothing in it.
fn in_memory(path: &Path) -> Result<Connection, JournalError> {
    let mut db = Connection::open_in_memory().map_err(|source| JournalError::from_sqlite(path, source))?;
    migrate(&mut db, path)?;
    Ok(db)
}

fn migrate(db: &mut Connection, path: &Path) -> Result<(), JournalError> {
    schema::migrate(db).map_err(|error| match error {
        schema::NotMigrated::Sqlite(source) => JournalError::from_sqlite(path, source),
        schema::NotMigrated::Unreadable { version, reason } => {
            JournalError::NotMigrated { path: path.to_owned(), version, reason }
        }
    })
}

/// The promises of a commit: on the disk before it returns, and no new block of a full disk is needed. So the rollback file
/// stays, with the bytes that it has, and nothing goes to the folder for temporary files.
fn prepare(db: &Connection) -> rusqlite::Result<()> {
    db.pragma_update_and_check(None, "journal_mode", "PERSIST", |_| Ok(()))?;
    db.pragma_update_and_check(None, "journal_size_limit", ROLLBACK_BYTES as i64, |_| Ok(()))?;
    db.pragma_update(None, "temp_store", "MEMORY")?;
    db.pragma_update(None, "synchronous", "EXTRA")
}

/// Gives the rollback file its bytes. Nobody can write meanwhile, and a file that begins with zeros undoes nothing
/// (<https://www.sqlite.org/fileformat.html#the_rollback_journal>).
fn keep_rollback(db: &Connection, path: &Path) -> Result<(), JournalError> {
    let mut name = path.as_os_str().to_owned();
    name.push("-journal");
    let rollback = PathBuf::from(name);
    db.execute_batch("BEGIN IMMEDIATE").map_err(|source| JournalError::from_sqlite(path, source))?;
    let filled = folder::fill(&rollback, ROLLBACK_BYTES);
    db.execute_batch("ROLLBACK").map_err(|source| JournalError::from_sqlite(path, source))?;
    filled.map_err(|source| JournalError::unwritable(&rollback, source))
}

#[cfg(test)]
mod test;
