//! What can go wrong with a person's folder and journal: a fact with its place, and what to try.

use std::io;
use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;
use thiserror::Error;

/// Why the folder or the journal cannot be used. `Display` is the fact, [`JournalError::hint`] the advice.
#[derive(Debug, Error)]
pub enum JournalError {
    /// Neither `--data-dir`, `COUNTERPOISE_DATA` nor a home folder says where to keep things.
    #[error("there is no home folder to keep the journal in")]
    NoHome,
    /// The place for the folder is something else, or lies under something that is no folder.
    #[error("{path} cannot be a folder: {source}")]
    NotAFolder {
        /// The place.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Another process holds the lock.
    #[error("another Counterpoise window{} is open with this journal ({folder})", process(*.by))]
    InUse {
        /// The folder.
        folder: PathBuf,
        /// The number of its process, where it is known.
        by: Option<u32>,
    },
    /// The file is not a database, or a database of something else.
    #[error("{path} is not a Counterpoise journal")]
    NotOurs {
        /// The file.
        path: PathBuf,
    },
    /// The file's `user_version` is above this version's.
    #[error("{path} was written by a newer Counterpoise (journal version {found}; this one knows {known})")]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its version.
        found: i64,
        /// The newest known here.
        known: i64,
    },
    /// What an earlier version kept cannot be read. The file is as it was.
    #[error("{path} (journal version {version}) cannot be brought up to date: {reason}")]
    NotMigrated {
        /// The file.
        path: PathBuf,
        /// Its version.
        version: i64,
        /// What cannot be read.
        reason: String,
    },
    /// The file has no bytes.
    #[error("{path} is empty: nothing was ever kept in it, or it was not copied whole")]
    Empty {
        /// The file.
        path: PathBuf,
    },
    /// A crash left the file half written, and this opening may not change it.
    #[error("{path} was left half written when a program or a computer stopped")]
    HalfWritten {
        /// The file.
        path: PathBuf,
    },
    /// The disk, or the room that the file may take, is full.
    #[error("there is no room left to write {path}")]
    Full {
        /// The file.
        path: PathBuf,
    },
    /// The file or its folder can be read but not written.
    #[error("{path} cannot be written: it is protected, or was moved while it was open")]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// The database is damaged.
    #[error("{path} is damaged: {source}")]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What the database said.
        source: rusqlite::Error,
    },
    /// The file cannot be read.
    #[error("{path} cannot be read: {source}")]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// A file of the folder cannot be written.
    #[error("{path} cannot be written: {source}")]
    Unwritable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Anything else that the database reports.
    #[error("the journal {path} cannot be used: {source}")]
    Database {
        /// The file.
        path: PathBuf,
        /// What the database said.
        source: rusqlite::Error,
    },
    /// No session has this id, or there is none at all.
    #[error("{}", no_session(.0))]
    NoSuchSession(String),
    /// The first digits of an id are those of more than one session.
    #[error("more than one session begins with \"{0}\"")]
    Ambiguous(String),
    /// A file to import is not what it should be. Nothing was imported.
    #[error("{file} cannot be imported: {reason}")]
    NotImported {
        /// The file, as it was named.
        file: String,
        /// What is wrong, and where.
        reason: String,
    },
    /// A file to import was written by a later version. Nothing was imported.
    #[error("{file} cannot be imported: a later version of Counterpoise wrote it: {reason}")]
    FromLater {
        /// The file, as it was named.
        file: String,
        /// By what that is seen.
        reason: String,
    },
    /// Some entries of a rescue file can never fit into this journal. The others were imported.
    #[error("{file} was imported in part: {reason}")]
    PartlyImported {
        /// The file, as it was named.
        file: String,
        /// How many are missing, and why.
        reason: String,
    },
    /// What was to be kept has a value out of its range. Nothing was kept.
    #[error("this cannot be kept: {0}")]
    OutOfRange(String),
    /// What was asked for could not be written out.
    #[error("the output cannot be written: {0}")]
    Output(#[from] io::Error),
}

fn process(number: Option<u32>) -> String {
    number.map_or_else(String::new, |number| format!(" (process {number})"))
}

fn no_session(which: &str) -> String {
    match which {
        "last" => "nothing has been practiced yet".to_owned(),
        id => format!("the journal has no session \"{id}\""),
    }
}

impl JournalError {
    /// What to try.
    pub fn hint(&self) -> String {
        match self {
            Self::NoHome => "Name a folder with --data-dir, for example: counterpoise --data-dir /path/to/folder".into(),
            Self::NotAFolder { .. } => "Name another place with --data-dir DIR or in COUNTERPOISE_DATA.".into(),
            Self::InUse { .. } => {
                "Continue in the other window, or close it first. You can still read the journal.".into()
            }
            Self::NotOurs { .. } => {
                "The file was left as it is. Move it away, or name another folder with --data-dir DIR.".into()
            }
            Self::Newer { .. } => "Update Counterpoise, or name another folder with --data-dir DIR.".into(),
            Self::NotMigrated { .. } => {
                "Nothing was changed. Keep the file, and show this message to whoever helps you with this computer.".into()
            }
            Self::Empty { .. } => "Copy it again from where it was made.".into(),
            Self::HalfWritten { .. } => {
                "Open practice once on the computer where it belongs: that repairs it. Then copy it again.".into()
            }
            Self::Full { .. } => "Free some space on the disk, then start again. What was saved is safe.".into(),
            Self::ReadOnly { .. } | Self::Unwritable { .. } => {
                "Make the folder writable, or name another one with --data-dir DIR.".into()
            }
            Self::Damaged { .. } => {
                "Keep a copy of the file. Move the damaged file away, and import your last export with: counterpoise journal import FILE.json".into()
            }
            Self::Unreadable { .. } => "Check the name, and that you are allowed to read the file.".into(),
            Self::Database { source, .. } if source.sqlite_error_code() == Some(ErrorCode::SystemIoFailure) => {
                "The disk could not be written: it may be full, write-protected or removed. What was saved is safe.".into()
            }
            Self::Database { .. } => "Close other programs that use the file, then try again.".into(),
            Self::NoSuchSession(which) if which == "last" => {
                "Practice once, with: counterpoise".into()
            }
            Self::NoSuchSession(_) => "See the sessions with: counterpoise journal list".into(),
            Self::Ambiguous(_) => "Give more digits of the id; counterpoise journal list shows them.".into(),
            Self::NotImported { .. } => {
                "Nothing was imported; the journal is unchanged. Use a file that journal export wrote.".into()
            }
            Self::FromLater { .. } => {
                "Nothing was imported; the journal is unchanged. Update Counterpoise on this computer, then import the file again.".into()
            }
            Self::PartlyImported { .. } => {
                "Keep the file: it still holds what is missing. Nothing that was in the journal has changed.".into()
            }
            Self::OutOfRange(_) => "Nothing was kept. Check the number and type it again.".into(),
            Self::Output(_) => "Check that the place exists and has room.".into(),
        }
    }

    /// The error of a file of the folder that the system could not write.
    pub(super) fn unwritable(path: &Path, source: io::Error) -> Self {
        let path = path.to_owned();
        match source.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::Full { path },
            _ => Self::Unwritable { path, source },
        }
    }

    /// The error that stands for what `SQLite` said about the file at `path`.
    pub(super) fn from_sqlite(path: &Path, source: rusqlite::Error) -> Self {
        let path = path.to_owned();
        match source.sqlite_error_code() {
            None if matches!(source, rusqlite::Error::FromSqlConversionFailure(..)) => {
                Self::Damaged { path, source }
            }
            Some(ErrorCode::NotADatabase) => Self::NotOurs { path },
            Some(ErrorCode::DiskFull) => Self::Full { path },
            Some(ErrorCode::ReadOnly) => Self::ReadOnly { path },
            Some(ErrorCode::DatabaseCorrupt) => Self::Damaged { path, source },
            _ => Self::Database { path, source },
        }
    }
}
