//! Which journals does a folder contain? Folders of people, and files that came back on a memory stick. Only the beginning
//! of a file is read here.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use crate::journal::{Folder, export, rescue};
use counterpoise_core::report::overview::Skipped;
use counterpoise_core::words::Printable;

/// How many levels of folders are searched: a clinic's, a person's, and those of other people on one computer.
const DEPTH: usize = 3;
/// Bytes at the beginning of a file that are searched for its schema.
const HEAD: u64 = 4_096;

/// A place from which a journal can be read.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Place {
    /// A person's own folder.
    Folder(Folder),
    /// A journal file outside a person's folder.
    File(PathBuf),
    /// An export from `journal export`.
    Export(PathBuf),
}

/// A journal, by the name under which it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Source {
    pub name: String,
    pub place: Place,
}

/// The journals and prescriptions in a folder.
#[derive(Debug, Default)]
pub(super) struct FolderContents {
    /// The journals, by name.
    pub sources: Vec<Source>,
    /// Files that may be prescriptions, outside the folders of people.
    pub prescriptions: Vec<PathBuf>,
    /// Folders and files that cannot be read.
    pub skipped: Vec<Skipped>,
}

/// The kind of a file, by its name.
enum Kind {
    Journal,
    Json,
    Toml,
}

impl Place {
    /// The file that is read.
    pub(crate) fn file(&self) -> PathBuf {
        match self {
            Self::Folder(folder) => folder.journal_file(),
            Self::File(path) | Self::Export(path) => path.clone(),
        }
    }
}

impl FolderContents {
    /// Searches `place`. `seen` is called for each journal.
    ///
    /// # Errors
    /// If the folder itself cannot be read. What cannot be read in it is in `skipped`.
    pub(crate) fn search(place: &Path, seen: &mut dyn FnMut()) -> io::Result<Self> {
        let mut search = Search { place, linked: Vec::new(), seen, found: Self::default() };
        search.folder(place, DEPTH)?;
        let mut found = search.found;
        found.sources.sort_by(|a, b| a.name.cmp(&b.name).then_with(|| a.place.cmp(&b.place)));
        found.prescriptions.sort();
        Ok(found)
    }
}

struct Search<'a> {
    place: &'a Path,
    /// The targets of the links that were followed.
    linked: Vec<PathBuf>,
    seen: &'a mut dyn FnMut(),
    found: FolderContents,
}

impl Search<'_> {
    fn folder(&mut self, folder: &Path, depth: usize) -> io::Result<()> {
        let mut files = Vec::new();
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let (path, kind) = (entry.path(), entry.file_type()?);
            if kind.is_dir() {
                self.inner(&path, depth);
            } else if kind.is_symlink() {
                match fs::metadata(&path) {
                    Ok(target) if target.is_dir() => {
                        if self.is_new(&path) {
                            self.inner(&path, depth);
                        }
                    }
                    Ok(_) => files.push(path),
                    Err(error) => self.skip(&path, &format!("it is a broken link: {error}")),
                }
            } else {
                files.push(path);
            }
        }
        let own = folder.join("journal.sqlite");
        let is_own = files.contains(&own);
        for path in files {
            match kind(&path) {
                Some(Kind::Journal) if path == own => match Folder::open_in(folder) {
                    Ok(folder) => self.add(folder.path().to_owned().as_path(), Place::Folder(folder)),
                    Err(error) => self.skip(folder, &error.to_string()),
                },
                Some(Kind::Journal) => self.add(&path, Place::File(path.clone())),
                Some(Kind::Json) => self.json(&path),
                Some(Kind::Toml) if !is_own => self.found.prescriptions.push(path),
                _ => {}
            }
        }
        Ok(())
    }

    /// Searches a folder in a folder, down to `depth` more levels.
    fn inner(&mut self, path: &Path, depth: usize) {
        if depth > 0
            && let Err(error) = self.folder(path, depth - 1)
        {
            self.skip(path, &format!("the folder cannot be read: {error}"));
        }
    }

    /// Whether a link leads to a folder that is not searched otherwise. Links may form a circle.
    fn is_new(&mut self, link: &Path) -> bool {
        let (Ok(target), Ok(place)) = (link.canonicalize(), self.place.canonicalize()) else { return false };
        let known = place.starts_with(&target) || target.starts_with(&place);
        let followed = |other: &PathBuf| target.starts_with(other) || other.starts_with(&target);
        if known || self.linked.iter().any(followed) {
            return false;
        }
        self.linked.push(target);
        true
    }

    fn json(&mut self, path: &Path) {
        match begins(path) {
            Err(error) => self.skip(path, &format!("it cannot be read: {error}")),
            Ok(head) if head.is_empty() => self.skip(path, "it is empty; the copy may be incomplete"),
            Ok(head) if head.contains(export::ANY_SCHEMA) => self.add(path, Place::Export(path.to_owned())),
            // It is named, because an entry in it may lock practice.
            Ok(head) if head.contains(rescue::ANY_SCHEMA) => self.skip(
                path,
                "it has entries that are in no journal yet; the next practice on its own computer adds them",
            ),
            Ok(_) => {}
        }
    }

    fn add(&mut self, path: &Path, place: Place) {
        let name = self.name(path);
        self.found.sources.push(Source { name, place });
        (self.seen)();
    }

    fn skip(&mut self, path: &Path, why: &str) {
        let name = self.name(path);
        self.found.skipped.push(Skipped { name, why: Printable::of(why).to_string() });
    }

    fn name(&self, path: &Path) -> String {
        let inside = path.strip_prefix(self.place).ok().filter(|rest| !rest.as_os_str().is_empty());
        Printable::of(&inside.unwrap_or(path).display().to_string()).to_string()
    }
}

fn kind(path: &Path) -> Option<Kind> {
    // macOS adds a file of this name for each file on a stick.
    if path.file_name()?.to_string_lossy().starts_with("._") {
        return None;
    }
    match path.extension()?.to_str()?.to_ascii_lowercase().as_str() {
        "sqlite" | "sqlite3" | "db" => Some(Kind::Journal),
        "json" => Some(Kind::Json),
        "toml" => Some(Kind::Toml),
        _ => None,
    }
}

/// The beginning of a file. A pipe is refused, since opening it could wait forever.
fn begins(path: &Path) -> io::Result<String> {
    if !fs::metadata(path)?.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    let mut head = Vec::new();
    File::open(path)?.take(HEAD).read_to_end(&mut head)?;
    Ok(String::from_utf8_lossy(&head).into_owned())
}
