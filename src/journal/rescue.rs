//! The file beside the journal for what could not be written into it; the next opening imports it. It holds the whole session, so
//! that it stands alone, and its bytes are taken before practice, so that a full disk keeps nothing out.

use std::env;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use rusqlite::TransactionBehavior;

use super::export::write_entries;
use super::folder::{fill, free_name, sync_folder, write_beside};
use super::lines::{self, NotKept, insert};
use super::summaries;
use super::{Folder, Incoming, Journal, JournalError, Notice};
use counterpoise_core::course::safeguard::can_bar;
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::{Contents, Id, Line, Misfit};

/// How the form of every rescue file begins.
pub const ANY_SCHEMA: &str = "counterpoise.rescue/";
/// The form of a rescue file: entries, as in an export.
pub const SCHEMA: &str = "counterpoise.rescue/2";
/// The form before entries had ids.
pub(super) const OLD_SCHEMA: &str = "counterpoise.rescue/1";

/// Where the bytes of a rescue file wait, zeros all.
const SPARE: &str = "rescue-spare";
/// As much as a whole session can need: its entries take less than 100 KiB with forty cues, planned anew after several pauses
/// [derived].
const SPARE_BYTES: u64 = 256 * 1024;

/// Writes the lines into the folder, or, if that fails too, into the folder for temporary files.
///
/// # Errors
/// If neither can be written; the error is the first one.
pub(super) fn write(folder: &Folder, session: Id, lines: &[Line]) -> io::Result<PathBuf> {
    let in_folder = write_in(folder.path(), session, lines);
    in_folder.or_else(|first| write_in(&env::temp_dir(), session, lines).map_err(|_| first))
}

/// Writes the lines into a new file of the folder `place`, which is made again if it is gone: into the bytes that were taken
/// before, or into new ones.
///
/// # Errors
/// If it cannot be written.
pub(super) fn write_in(place: &Path, session: Id, lines: &[Line]) -> io::Result<PathBuf> {
    let mut text = Vec::new();
    write_entries(SCHEMA, None, lines, &mut text)?;
    // What is wrong with the place is said by the writing.
    let _ = Folder::open_in(place).and_then(|folder| folder.make());
    let path = free_name(place, &format!("rescue-{}", session.short()), "json");
    write_spare(&place.join(SPARE), &text, &path).or_else(|_| write_beside(&path, &text)).map(|()| path)
}

/// Writes the text into the spare file, which becomes the one at `path`. No step of it needs a new block.
fn write_spare(spare: &Path, text: &[u8], path: &Path) -> io::Result<()> {
    let mut file = File::options().write(true).open(spare)?;
    if file.metadata()?.len() < text.len() as u64 {
        return Err(io::ErrorKind::StorageFull.into());
    }
    file.write_all(text)?;
    file.sync_all()?;
    file.set_len(text.len() as u64)?;
    file.sync_all()?;
    fs::rename(spare, path)?;
    sync_folder(path.parent())
}

/// Sees to it that the folder has a spare file.
///
/// # Errors
/// If it cannot be written.
pub(super) fn make_spare(folder: &Path) -> Result<(), JournalError> {
    let spare = folder.join(SPARE);
    fill(&spare, SPARE_BYTES).map_err(|source| JournalError::unwritable(&spare, source))
}

/// A spare file that a rescue was being written into when the program ended is a rescue file.
fn name_cut_off(folder: &Path) -> io::Result<()> {
    let spare = folder.join(SPARE);
    let mut first = [0];
    File::open(&spare)?.read_exact(&mut first)?;
    if first == [0] { Ok(()) } else { fs::rename(&spare, free_name(folder, "rescue-cut-off", "json")) }
}

/// Takes in every rescue file of the folder and renames it. One that can never be taken in whole is set aside under a
/// name of its own, so that this is said once; one that cannot be taken in now stays.
pub(super) fn take_in(journal: &mut Journal) -> Vec<Notice> {
    let Some(folder) = journal.folder().map(|folder| folder.path().to_owned()) else { return Vec::new() };
    // There is none, or it is tried again.
    let _ = name_cut_off(&folder);
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
    let name = file.display().to_string();
    let read = taken.and_then(|mut text| {
        // The zeros of a spare file after the text.
        text.truncate(text.iter().rposition(|byte| *byte != 0).map_or(0, |last| last + 1));
        let read = Incoming::read(&name, &text).and_then(Incoming::into_rescue);
        read.map_err(|error| Hindrance::Always(error.to_string()))
    });
    let (ending, set_aside) = match read.and_then(|rescue| apply(journal, &rescue.lines)) {
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

/// The files of the folder that were set aside.
pub(super) fn set_aside(folder: &Path) -> Vec<PathBuf> {
    let names = fs::read_dir(folder).into_iter().flatten().filter_map(|entry| Some(entry.ok()?.path()));
    let mut files: Vec<PathBuf> =
        names.filter(|path| path.extension() == Some("set-aside".as_ref())).collect();
    files.sort();
    files
}

/// The id that stands for the bytes of a file that was set aside, if something in it may bar practice and is not in the journal.
/// What cannot be read may bar.
pub(super) fn may_bar(file: &Path, is_there: impl Fn(&Line) -> bool) -> Option<Id> {
    let bytes = fs::read(file).unwrap_or_default();
    let name = file.display().to_string();
    let read = Incoming::read(&name, &bytes).and_then(Incoming::into_rescue);
    let is_harmless = read.is_ok_and(|rescue| !can_bar(rescue.lines.iter().filter(|line| !is_there(line))));
    (!is_harmless).then(|| Id::of(&Digest::of(&bytes).to_string()))
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

/// Takes in what could not be written. What is there already is not doubled. A line that the journal can never hold does not
/// keep the others out: they are taken in, and `Some` says how many were not.
pub(super) fn apply(journal: &mut Journal, lines: &[Line]) -> Result<Option<String>, Hindrance> {
    let refused = keep_all(journal, lines).map_err(|error| Hindrance::Now(error.to_string()))?;
    let (count, all) = (refused.len(), lines.len());
    Ok(refused.first().map(|why| {
        format!("{count} of its {all} entries do not fit into the journal ({why}); the others are in it")
    }))
}

/// Keeps every line that can be kept, in one commit; returns why the others cannot.
fn keep_all(journal: &mut Journal, lines: &[Line]) -> Result<Vec<String>, NotKept> {
    let Journal { db, guard, .. } = journal;
    let change = db.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let mut refused = Vec::new();
    for line in lines {
        match insert(&change, line) {
            Ok(_) => {}
            Err(error) if error.is_final() => refused.push(error.to_string()),
            Err(error) => return Err(error),
        }
    }
    // What has no place is kept all the same, and named.
    let rescued = |misfit: &&Misfit| lines.iter().any(|line| line.id == misfit.id);
    let contents = Contents::of(lines::all(&change)?);
    // What cannot be written there is written at the next start, from the journal.
    let _ = guard.file().map(|file| summaries::known(&change).map(|known| file.add(&known)));
    refused.extend(contents.misfits.iter().filter(rescued).map(ToString::to_string));
    change.commit()?;
    journal.summarize();
    Ok(refused)
}
