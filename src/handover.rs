//! Which memory sticks are there, which prescriptions are on them, and where is a file written to one? Nothing is asked or
//! put to use here.

use std::env;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use sysinfo::Disks;

use crate::journal::folder::write_beside;
use counterpoise_core::plan::prescription::{Prescription, Refusal, SCHEMA, Seal, limits};

/// The folder on a memory stick for all files of this program.
pub const FOLDER: &str = "counterpoise";
/// The environment variable that names a folder to use as the memory stick, instead of searching for one.
pub const VARIABLE: &str = "COUNTERPOISE_STICK";
/// The most files that are read in one folder \[judgment: a stick may hold a whole archive\].
const MOST_FILES: usize = 200;
/// The most characters of a file name that is made from a title.
const STEM: usize = 40;

/// A removable folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The name of the folder, for people.
    pub name: String,
    /// The path of the folder.
    pub path: PathBuf,
}

/// A file on a stick that is, or says it is, a prescription.
#[derive(Debug)]
pub struct StickFile {
    /// The path of the file.
    pub path: PathBuf,
    /// The bytes of the file.
    pub bytes: Vec<u8>,
    /// The prescription, or why it is refused.
    pub read: Result<Prescription, Unusable>,
}

/// Why a file on a stick cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum Unusable {
    /// It cannot be read.
    #[error("the file cannot be read: {0}")]
    Unreadable(#[from] io::Error),
    /// The gate refuses it. `Display` names the place.
    #[error("{0}")]
    Refused(#[from] Refusal),
    /// It was changed or cut off after it was issued.
    #[error("the file was changed after it was issued: the digest in its last line does not match")]
    Changed,
}

impl Unusable {
    /// What to do about it, as sentences.
    pub fn hint(&self) -> String {
        match self {
            Self::Unreadable(_) => "Take the stick out and put it back in. If that does not help, ask for the file again.".into(),
            Self::Refused(refusal) => refusal.hint(),
            Self::Changed => {
                "Ask the person who issued it for the file again. If you are the therapist and changed it by hand, seal it again with: counterpoise prescribe --from FILE"
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

/// This folder as a memory stick; nothing if it does not exist.
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
    /// The prescriptions on it, at its top and in [`FOLDER`], by name. At the top, files that do not mention a prescription
    /// of this program are ignored.
    pub fn prescriptions(&self) -> Vec<StickFile> {
        let ours = self.path.join(FOLDER);
        let mut all: Vec<StickFile> = toml_files(&self.path).into_iter().map(read_file).collect();
        all.retain(|found| mentions_us(&found.bytes));
        all.extend(toml_files(&ours).into_iter().map(read_file));
        all
    }

    /// The folder on it for files of this program; it is created if it does not exist.
    ///
    /// # Errors
    /// If it cannot be created: the stick is full or write-protected.
    pub fn folder(&self) -> io::Result<PathBuf> {
        let folder = self.path.join(FOLDER);
        match fs::create_dir(&folder) {
            Err(error) if error.kind() != io::ErrorKind::AlreadyExists => return Err(error),
            _ => {}
        }
        // Whoever made the stick could lead the report elsewhere.
        match fs::symlink_metadata(&folder)?.is_dir() {
            true => Ok(folder),
            false => Err(io::Error::other("there is a link or a file where the folder should be")),
        }
    }

    /// Writes a file there, completely or not at all, and returns its path. If the name is taken, the new file gets a number.
    ///
    /// # Errors
    /// If it cannot be written. No partial file is kept.
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

fn read_file(path: PathBuf) -> StickFile {
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
    StickFile { path, bytes, read }
}

fn mentions_us(bytes: &[u8]) -> bool {
    let word = SCHEMA.split('/').next().unwrap_or(SCHEMA).as_bytes();
    bytes.windows(word.len()).any(|window| window == word)
}

/// The files of a folder that end in `.toml`, without hidden ones, by name.
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
    for character in title.to_lowercase().chars() {
        if character.is_ascii_alphanumeric() {
            stem.push(character);
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
