//! Where everything of one person is: which folder, and the files in it. Only their owner can read them.

use std::env;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use directories::ProjectDirs;

use super::JournalError;

/// A person's folder. Naming it changes nothing on the disk; it is made when something is first kept in it.
///
/// ```
/// use counterpoise::journal::Folder;
/// let folder = Folder::open_in("/srv/practice/ada").unwrap();
/// assert!(folder.journal_file().ends_with("ada/journal.sqlite"));
/// assert!(!folder.path().exists());
/// ```
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Folder {
    path: PathBuf,
}

impl Folder {
    /// The folder that `--data-dir` names, else the one in `COUNTERPOISE_DATA`, else the platform's data folder.
    ///
    /// # Errors
    /// If none of them says where, or something that is not a folder is there.
    pub fn find(data_dir: Option<&Path>) -> Result<Self, JournalError> {
        let given = data_dir.map(Path::to_owned);
        let environment =
            || env::var_os("COUNTERPOISE_DATA").filter(|value| !value.is_empty()).map(PathBuf::from);
        let platform = || ProjectDirs::from("", "", "counterpoise").map(|dirs| dirs.data_dir().to_owned());
        Self::of(given.or_else(environment).or_else(platform))
    }

    pub(super) fn of(place: Option<PathBuf>) -> Result<Self, JournalError> {
        Self::open_in(place.ok_or(JournalError::NoHome)?)
    }

    /// The folder at `path`, whether or not it is there yet.
    ///
    /// # Errors
    /// If something else is there, or on the way to it.
    pub fn open_in(path: impl Into<PathBuf>) -> Result<Self, JournalError> {
        let path = path.into();
        match fs::metadata(&path) {
            Ok(metadata) if !metadata.is_dir() => {
                Err(JournalError::NotAFolder { path, source: io::ErrorKind::NotADirectory.into() })
            }
            Err(source) if source.kind() != io::ErrorKind::NotFound => {
                Err(JournalError::NotAFolder { path, source })
            }
            _ => Ok(Self { path }),
        }
    }

    /// The folder itself.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The journal.
    pub fn journal_file(&self) -> PathBuf {
        self.path.join("journal.sqlite")
    }

    /// The settings.
    pub fn settings_file(&self) -> PathBuf {
        self.path.join("settings.toml")
    }

    /// The prescription that is in use.
    pub fn prescription_file(&self) -> PathBuf {
        self.path.join("prescription.toml")
    }

    /// Makes the folder, if it is not there. Only its owner can open a folder made here; one that was there keeps
    /// its permissions, because it may hold other things too.
    ///
    /// # Errors
    /// If it cannot be made.
    pub fn make(&self) -> Result<(), JournalError> {
        let mut builder = fs::DirBuilder::new();
        builder.recursive(true);
        #[cfg(unix)]
        std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
        builder
            .create(&self.path)
            .map_err(|source| JournalError::NotAFolder { path: self.path.clone(), source })
    }

    /// Writes a file of the folder whole or not at all: beside its place, onto the disk, then renamed.
    ///
    /// # Errors
    /// If it cannot be written. What was there is then unchanged.
    pub fn write(&self, path: &Path, bytes: &[u8]) -> Result<(), JournalError> {
        self.make()?;
        write_beside(path, bytes).map_err(|source| JournalError::Unwritable { path: path.to_owned(), source })
    }

    /// Keeps the account of a fault, for whoever repairs it. The text must hold no answers about health.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn write_fault(&self, text: &str) -> Result<PathBuf, JournalError> {
        let path = free_name(&self.path, "fault", "txt");
        self.write(&path, text.as_bytes())?;
        Ok(path)
    }
}

/// Makes an empty file that only its owner can read, unless there is one.
pub(super) fn make_private_file(path: &Path) -> Result<(), JournalError> {
    match private().write(true).create_new(true).open(path) {
        Err(source) if source.kind() != io::ErrorKind::AlreadyExists => {
            Err(JournalError::Unwritable { path: path.to_owned(), source })
        }
        _ => Ok(()),
    }
}

/// Sees to it that a file of the program has at least so many bytes, each written, so that writing over them needs no new
/// block.
///
/// # Errors
/// If it cannot be written. Without room it is as long as it was.
pub(super) fn fill(path: &Path, bytes: u64) -> io::Result<()> {
    let mut file = private().append(true).create(true).open(path)?;
    let before = file.metadata()?.len();
    if before >= bytes {
        return Ok(());
    }
    let filled = io::copy(&mut io::repeat(0).take(bytes - before), &mut file).and_then(|_| file.sync_all());
    if filled.is_err() {
        // The reason to report is the first one.
        let _ = file.set_len(before);
    }
    filled?;
    sync_folder(path.parent())
}

/// Brings a file and its name onto the disk.
pub(super) fn sync_file(path: &Path) -> io::Result<()> {
    File::options().write(true).open(path)?.sync_all()?;
    sync_folder(path.parent())
}

/// `STEM-1.ENDING`, or the next number that is free in `folder`.
pub(super) fn free_name(folder: &Path, stem: &str, ending: &str) -> PathBuf {
    (1..=u32::MAX)
        .map(|number| folder.join(format!("{stem}-{number}.{ending}")))
        .find(|path| fs::symlink_metadata(path).is_err())
        .expect("a folder does not hold four thousand million files")
}

/// Writes `bytes` beside `path`, brings them onto the disk, and renames.
pub(crate) fn write_beside(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".new");
    let beside = path.with_file_name(name);
    // What an interrupted writing left there is nobody's.
    if let Err(error) = fs::remove_file(&beside)
        && error.kind() != io::ErrorKind::NotFound
    {
        return Err(error);
    }
    let mut file = private().write(true).create_new(true).open(&beside)?;
    let written = file.write_all(bytes).and_then(|()| file.sync_all());
    drop(file);
    let renamed = written.and_then(|()| fs::rename(&beside, path));
    if renamed.is_err() {
        // The reason to report is the first one.
        let _ = fs::remove_file(&beside);
    }
    renamed?;
    sync_folder(path.parent())
}

/// Brings a rename onto the disk, where folders can be synchronized at all.
pub(super) fn sync_folder(folder: Option<&Path>) -> io::Result<()> {
    match folder {
        Some(folder) if cfg!(unix) && !folder.as_os_str().is_empty() => File::open(folder)?.sync_all(),
        _ => Ok(()),
    }
}

fn private() -> fs::OpenOptions {
    let mut options = File::options();
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options
}
