//! How files go from one person to another on a memory stick: which removable folders there are, which prescriptions lie
//! on them, and where something to take along is put. Nothing is taken from one here, and nothing is asked.

use std::env;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use sysinfo::Disks;

use crate::journal::folder::write_beside;
use counterpoise_core::plan::prescription::{Prescription, Refusal, SCHEMA, Seal, limits};

/// The folder on a memory stick in which everything of ours is put.
pub const FOLDER: &str = "counterpoise";
/// The environment variable that names a folder to be taken for a memory stick, in place of looking for one.
pub const VARIABLE: &str = "COUNTERPOISE_STICK";
/// The most files that are looked at in one folder \[judgment: a stick may hold a whole archive\].
const MOST_FILES: usize = 200;
/// The longest name that is made from a title.
const STEM: usize = 40;

/// A removable folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// What people call it.
    pub name: String,
    /// Where it is.
    pub path: PathBuf,
}

/// A prescription that lies on a stick, or a file that says it is one.
#[derive(Debug)]
pub struct Found {
    /// Where.
    pub path: PathBuf,
    /// What was read.
    pub bytes: Vec<u8>,
    /// What it says, or why it is refused.
    pub read: Result<Prescription, Unusable>,
}

/// Why a file of a stick is not used.
#[derive(Debug, thiserror::Error)]
pub enum Unusable {
    /// It cannot be read.
    #[error("the file cannot be read: {0}")]
    Unreadable(#[from] io::Error),
    /// The gate refuses it. `Display` names the place.
    #[error("{0}")]
    Refused(#[from] Refusal),
    /// It was changed or cut off after it was issued.
    #[error("the file was changed after it was issued: its last line names another digest")]
    Changed,
}

impl Unusable {
    /// What to do about it.
    pub fn hint(&self) -> String {
        match self {
            Self::Unreadable(_) => "Take the stick out and put it in again; else ask for the file once more.".into(),
            Self::Refused(refusal) => refusal.hint(),
            Self::Changed => {
                "Ask whoever issued it for the file once more. A therapist who changed it by hand seals it anew with: counterpoise prescribe --from FILE"
                    .into()
            }
        }
    }
}

/// The removable folders of this computer, or the one that [`VARIABLE`] names.
pub fn places() -> Vec<Place> {
    let given = env::var_os(VARIABLE).filter(|value| !value.is_empty()).map(PathBuf::from);
    given.map_or_else(removable, |path| places_in(&path))
}

/// This folder, taken for a memory stick; none if it is not there.
///
/// ```
/// use counterpoise::handover::places_in;
/// assert!(places_in("/no/such/folder".as_ref()).is_empty());
/// ```
pub fn places_in(path: &Path) -> Vec<Place> {
    let name = path
        .file_name()
        .map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned());
    if path.is_dir() { vec![Place { name, path: path.to_owned() }] } else { Vec::new() }
}

fn removable() -> Vec<Place> {
    let disks = Disks::new_with_refreshed_list();
    let sticks = disks.list().iter().filter(|disk| disk.is_removable());
    let mut places: Vec<Place> = sticks.flat_map(|disk| places_in(disk.mount_point())).collect();
    places.sort_by(|a, b| a.path.cmp(&b.path));
    places.dedup_by(|a, b| a.path == b.path);
    places
}

impl Place {
    /// The prescriptions on it: at its top and in [`FOLDER`], by name. Files of others are passed over: at the top only what
    /// calls itself a prescription counts.
    pub fn prescriptions(&self) -> Vec<Found> {
        let ours = self.path.join(FOLDER);
        let mut all: Vec<Found> = toml_files(&self.path).into_iter().map(found).collect();
        all.retain(|found| mentions_us(&found.bytes));
        all.extend(toml_files(&ours).into_iter().map(found));
        all
    }

    /// The folder on it for what is taken along, made if it is not there.
    ///
    /// # Errors
    /// If it cannot be made: the stick is full, or can only be read.
    pub fn folder(&self) -> io::Result<PathBuf> {
        let folder = self.path.join(FOLDER);
        fs::create_dir_all(&folder)?;
        Ok(folder)
    }

    /// Puts a file there, whole or not at all, and says where. One of the same name is kept: the new one gets a number.
    ///
    /// # Errors
    /// If it cannot be written. Nothing is left behind then.
    ///
    /// # Panics
    /// Never: numbers do not run out.
    pub fn put(&self, stem: &str, ending: &str, bytes: &[u8]) -> io::Result<PathBuf> {
        let folder = self.folder()?;
        let numbered = (2..).map(|number| folder.join(format!("{stem}-{number}.{ending}")));
        let mut names = std::iter::once(folder.join(format!("{stem}.{ending}"))).chain(numbered);
        let path = names.find(|path| fs::symlink_metadata(path).is_err()).expect("numbers do not run out");
        write_beside(&path, bytes)?;
        Ok(path)
    }
}

fn found(path: PathBuf) -> Found {
    let most = limits::FILE_BYTES as u64;
    let mut bytes = Vec::new();
    // One byte more than is allowed is enough for the gate to refuse it.
    let read = fs::File::open(&path).and_then(|file| file.take(most + 1).read_to_end(&mut bytes));
    let read = match read {
        Err(error) => Err(Unusable::Unreadable(error)),
        Ok(_) => Prescription::read(&path.display().to_string(), &bytes).map_err(Unusable::Refused),
    };
    let read = read.and_then(|prescription| match Seal::of(&bytes) {
        Seal::Broken => Err(Unusable::Changed),
        Seal::None | Seal::Whole => Ok(prescription),
    });
    Found { path, bytes, read }
}

fn mentions_us(bytes: &[u8]) -> bool {
    let word = SCHEMA.split('/').next().unwrap_or(SCHEMA).as_bytes();
    bytes.windows(word.len()).any(|window| window == word)
}

/// The files of a folder that end in `.toml`, hidden ones apart, by name.
fn toml_files(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let is_ours = |path: &PathBuf| {
        let hidden = path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'));
        let toml = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("toml"));
        toml && !hidden && path.is_file()
    };
    let mut files: Vec<PathBuf> =
        entries.filter_map(|entry| Some(entry.ok()?.path())).filter(is_ours).take(MOST_FILES).collect();
    files.sort();
    files
}

/// The name of a file, from a title: small letters and digits with hyphens between.
///
/// ```
/// use counterpoise::handover::file_stem;
/// assert_eq!(file_stem("At the counter, 2nd month"), "at-the-counter-2nd-month");
/// assert_eq!(file_stem("../.."), "prescription");
/// ```
pub fn file_stem(title: &str) -> String {
    let mut stem = String::new();
    for sign in title.to_lowercase().chars() {
        if sign.is_ascii_alphanumeric() {
            stem.push(sign);
        } else if !stem.is_empty() && !stem.ends_with('-') {
            stem.push('-');
        }
    }
    let stem: String = stem.chars().take(STEM).collect();
    let stem = stem.trim_end_matches('-');
    if stem.is_empty() { "prescription".to_owned() } else { stem.to_owned() }
}

#[cfg(test)]
mod test;
