//! Where a person's practice is kept: one folder with one `SQLite` file that only its owner can read. The rows that it keeps
//! are those of `record` in the core.
//!
//! ```text
//! Folder::find -> lock -> Journal::open -> Writer::start -> keep(Entry) ... close
//!         \-----> Journal::look -> list, show, export
//! a file -> Journal::peek, an export -> Journal::of_export: read, and left as they are
//! ```
//!
//! To practice takes the [`Lock`]; to look does not. Nothing is overwritten: a set, a cue and an end are rows that
//! are added once. What could not be written goes to a rescue file, which the next opening takes in.

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::{Connection, OpenFlags};

pub(crate) mod adopt;
mod balance;
mod by_hand;
mod correction;
pub mod erase;
mod error;
pub mod export;
mod fitness;
pub mod folder;
pub mod import;
pub mod incoming;
mod interrupted;
mod keep;
mod lock;
mod material;
mod others;
mod past;
pub mod read;
mod recent;
pub mod rescue;
#[cfg(test)]
pub(crate) mod sample;
mod schema;
mod table;
mod tryout;
pub mod writer;

pub use adopt::Altered;
pub use error::JournalError;
pub use folder::Folder;
pub use incoming::{Holds, Incoming};
pub use lock::Lock;
pub use writer::{Closed, Status, Writer};

pub use counterpoise_core::record::{
    AdviceRow, AnswerRow, BY_HAND, BalanceRow, ClearanceRow, Corrected, CorrectionRow, CueRow, DecisionRow,
    DeliveryRow, DisturbanceRow, GivenRow, LeftOutRow, LiftedRow, MishapRow, ReadyRow, ResponseRow,
    RoutineRow, SeenRow, SessionId, SessionRow, SetEndRow, SetRow, SetTicked, Stamp, SuitabilityRow, Ticked,
    TopicRow,
};

/// How long a commit waits for another program that is reading the file.
const BUSY: Duration = Duration::from_millis(1_500);

/// A journal that is open: for practice, with the lock, or only to look.
#[derive(Debug)]
pub struct Journal {
    db: Connection,
    path: PathBuf,
    lock: Option<Lock>,
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
        "something of an earlier practice is not in the journal. You can practice as always. It is kept in {file}: show \
         that file to whoever helps you with this computer ({reason})"
    )]
    SetAside {
        /// Its new name.
        file: PathBuf,
        /// What does not fit.
        reason: String,
    },
    /// Sessions without an end were closed as interrupted.
    #[error("{}", interrupted(*.0))]
    Interrupted(usize),
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
        Folder::make_private_file(&path)?;
        let mut db = Connection::open_with_flags(&path, flags()).map_err(at)?;
        db.busy_timeout(BUSY).map_err(at)?;
        schema::recognize(&db, &path)?;
        if let Some(pages) = pages {
            db.pragma_update(None, "max_page_count", pages).map_err(at)?;
        }
        prepare(&db).map_err(at)?;
        schema::migrate(&mut db).map_err(at)?;
        schema::make_room(&db).map_err(at)?;
        let mut journal = Self { db, path: path.clone(), lock: Some(lock) };
        let mut notices = rescue::take_in(&mut journal);
        let closed = interrupted::close(&mut journal.db).map_err(at)?;
        if closed > 0 {
            notices.push(Notice::Interrupted(closed));
        }
        Ok((journal, notices))
    }

    /// Opens the journal to look at it. It works beside a practice that is going on, and changes nothing; where
    /// nothing has been practiced yet, it is empty.
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
            in_memory().map_err(at)?
        } else {
            // Opened for writing, because what a crash left half done is undone by the first to look.
            let db = Connection::open_with_flags(&path, flags()).map_err(at)?;
            db.busy_timeout(BUSY).map_err(at)?;
            schema::recognize(&db, &path)?;
            schema::up_to_date(&db, &path)?;
            db
        };
        db.pragma_update(None, "query_only", true).map_err(at)?;
        Ok(Self { db, path, lock: None })
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The folder, if this journal was opened for practice.
    pub fn folder(&self) -> Option<&Folder> {
        self.lock.as_ref().map(Lock::folder)
    }

    fn sqlite(&self, source: rusqlite::Error) -> JournalError {
        JournalError::from_sqlite(&self.path, source)
    }
}

fn flags() -> OpenFlags {
    OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX
}

/// A journal that is nowhere, with nothing in it.
fn in_memory() -> rusqlite::Result<Connection> {
    let mut db = Connection::open_in_memory()?;
    schema::migrate(&mut db)?;
    Ok(db)
}

/// The promises of a commit: on the disk, the folder's entry included, before it returns.
fn prepare(db: &Connection) -> rusqlite::Result<()> {
    db.pragma_update_and_check(None, "journal_mode", "DELETE", |_| Ok(()))?;
    db.pragma_update(None, "synchronous", "EXTRA")?;
    db.pragma_update(None, "foreign_keys", true)
}

#[cfg(test)]
mod test;
