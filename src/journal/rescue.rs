//! The file beside the journal for what could not be written into it; the next opening imports it.

use std::env;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use rusqlite::TransactionBehavior;
use serde::{Deserialize, Serialize};

use super::folder::{free_name, write_beside};
use super::keep::{NotKept, Try, keep, summarize_again};
use super::{Folder, Journal, Notice};
use counterpoise_core::record::{Line, SessionId, SessionRow};

/// The form of a rescue file.
pub const SCHEMA: &str = "counterpoise.rescue/1";

/// What could not be written of one session.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Rescue {
    schema: String,
    session: SessionId,
    lines: Vec<Line>,
}

impl Rescue {
    /// Of which session.
    pub(crate) fn session(&self) -> &SessionId {
        &self.session
    }

    /// Its beginning, where that could not be written either.
    pub(crate) fn begun(&self) -> Option<&SessionRow> {
        self.lines.iter().find_map(|line| match line {
            Line::SessionBegun(row) => Some(row),
            _ => None,
        })
    }
}

/// Writes the lines into the folder, or, if that fails too, into the folder for temporary files.
///
/// # Errors
/// If neither can be written; the error is the first one.
pub(super) fn write(folder: &Folder, session: &SessionId, lines: &[Line]) -> io::Result<PathBuf> {
    let in_folder = write_in(folder.path(), session, lines);
    in_folder.or_else(|first| write_in(&env::temp_dir(), session, lines).map_err(|_| first))
}

/// Writes the lines into a new file of the folder `place`.
///
/// # Errors
/// If it cannot be written.
pub(super) fn write_in(place: &Path, session: &SessionId, lines: &[Line]) -> io::Result<PathBuf> {
    let rescue = Rescue { schema: SCHEMA.to_owned(), session: session.clone(), lines: lines.to_vec() };
    let text = serde_json::to_vec_pretty(&rescue).map_err(io::Error::other)?;
    let path = free_name(place, &format!("rescue-{}", session.short()), "json");
    write_beside(&path, &text).map(|()| path)
}

/// Takes in every rescue file of the folder and renames it. One that can never be taken in whole is set aside under a
/// name of its own, so that this is said once; one that cannot be taken in now stays.
pub(super) fn take_in(journal: &mut Journal) -> Vec<Notice> {
    let Some(folder) = journal.folder().map(|folder| folder.path().to_owned()) else { return Vec::new() };
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| is_rescue(path))
        .collect();
    files.sort();
    files.into_iter().map(|file| take_in_file(journal, &file)).collect()
}

fn is_rescue(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    name.starts_with("rescue-") && name.ends_with(".json")
}

fn take_in_file(journal: &mut Journal, file: &Path) -> Notice {
    let taken = fs::read(file).map_err(|error| Hindrance::Now(error.to_string()));
    let read = taken.and_then(|text| read(&text).map_err(Hindrance::Always));
    let (ending, set_aside) = match read.and_then(|rescue| apply(journal, &rescue)) {
        Ok(None) => ("imported", None),
        Ok(Some(reason)) | Err(Hindrance::Always(reason)) => ("set-aside", Some(reason)),
        Err(Hindrance::Now(reason)) => return Notice::NotRescued { file: file.to_owned(), reason },
    };
    let mut name = file.as_os_str().to_owned();
    name.push(".");
    name.push(ending);
    let aside = PathBuf::from(name);
    match (fs::rename(file, &aside), set_aside) {
        (Ok(()), None) => Notice::Rescued(file.to_owned()),
        (Ok(()), Some(reason)) => Notice::SetAside { file: aside, reason },
        (Err(error), _) => {
            Notice::NotRescued { file: file.to_owned(), reason: format!("it cannot be renamed: {error}") }
        }
    }
}

/// Why a rescue file is not taken in.
#[derive(Debug, thiserror::Error)]
pub(super) enum Hindrance {
    /// A later try may succeed.
    #[error("{0}")]
    Now(String),
    /// No later try can.
    #[error("{0}")]
    Always(String),
}

/// Reads the text of a rescue file.
pub(super) fn read(text: &[u8]) -> Result<Rescue, String> {
    let rescue: Rescue = serde_json::from_slice(text).map_err(|error| error.to_string())?;
    if rescue.schema != SCHEMA {
        return Err(format!("its `schema` is \"{}\"; this version reads \"{SCHEMA}\"", rescue.schema));
    }
    Ok(rescue)
}

/// Takes in a rescue file. What is there already is not doubled. A line that the journal can never hold does not keep the
/// others out: they are taken in, and `Some` says how many were not.
pub(super) fn apply(journal: &mut Journal, rescue: &Rescue) -> Result<Option<String>, Hindrance> {
    let refused = keep_all(journal, rescue).map_err(|error| Hindrance::Now(error.to_string()))?;
    let (count, all) = (refused.len(), rescue.lines.len());
    Ok(refused.first().map(|why| {
        format!("{count} of its {all} entries do not fit into the journal ({why}); the others are in it")
    }))
}

/// Keeps every line that can be kept, in one commit; returns why the others cannot.
fn keep_all(journal: &mut Journal, rescue: &Rescue) -> Result<Vec<NotKept>, NotKept> {
    let mut change = journal.db.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let mut refused = Vec::new();
    for line in &rescue.lines {
        // A line is several rows: a savepoint of its own leaves none of them behind when one is refused.
        let step = change.savepoint()?;
        match keep(&step, &rescue.session, line, Try::Again) {
            Ok(()) => step.commit()?,
            Err(error) if error.is_final() => refused.push(error),
            Err(error) => return Err(error),
        }
    }
    summarize_again(&change, rescue.session.as_str())?;
    change.commit()?;
    Ok(refused)
}
