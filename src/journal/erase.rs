//! Erases what was kept of a person: every file is overwritten, synced and removed. Copies elsewhere, and what a drive keeps
//! by itself, are out of reach.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::folder::sync_folder;
use super::{Folder, JournalError, Lock};

/// What is erased.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// The journal, and what stands beside it: the safety record, rescue files and the bytes kept for one, accounts of faults, what a crash left half written.
    Journal,
    /// That, the settings and the prescriptions.
    Everything,
}

/// Written over a file, so much at a time.
const BLOCK: usize = 8 * 1024;

/// The files that would go, in order of their names.
///
/// # Errors
/// If the folder cannot be read.
pub fn files(folder: &Folder, what: What) -> Result<Vec<PathBuf>, JournalError> {
    let entries = match fs::read_dir(folder.path()) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(source) => return Err(JournalError::NotAFolder { path: folder.path().to_owned(), source }),
    };
    Ok(named(entries, |name| is_own(name, what)))
}

/// The copies that can be seen: exports, reports and sheets in the folder itself and in these others. They are named, and
/// never erased.
///
/// # Errors
/// If the folder cannot be read.
pub fn copies(folder: &Folder, others: &[PathBuf]) -> Result<Vec<PathBuf>, JournalError> {
    let mut copies = Vec::new();
    for place in std::iter::once(folder.path()).chain(others.iter().map(PathBuf::as_path)) {
        match fs::read_dir(place) {
            Ok(entries) => {
                copies.extend(named(entries, |name| is_copy(name) && !is_own(name, What::Everything)));
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            Err(source) => return Err(JournalError::NotAFolder { path: place.to_owned(), source }),
        }
    }
    Ok(copies)
}

/// Whether the program keeps a file of this name in the folder. The lock's file holds a number only, and removing it would let two
/// windows lock two files.
fn is_own(name: &str, what: What) -> bool {
    let begins = |start: &str| name.strip_prefix(start);
    // With what a crash left half written (`.new`), and what SQLite keeps beside it.
    let is_whole = |rest: &str| rest.is_empty() || rest.starts_with(['-', '.']);
    let journal = begins("journal.sqlite").is_some_and(is_whole)
        || name == "safety-record"
        || begins("rescue-").is_some_and(|rest| rest == "spare" || rest.contains(".json"))
        || begins("fault-").is_some_and(|rest| [".txt", ".txt.new"].iter().any(|end| rest.ends_with(end)));
    // `prescription.toml`, and the earlier ones by their digest.
    let is_digest = |rest: &str| !rest.is_empty() && rest.bytes().all(|byte| byte.is_ascii_hexdigit());
    let earlier =
        |rest: &str| rest.split_once(".toml").is_some_and(|(digest, end)| is_digest(digest) && is_whole(end));
    let others = begins("settings.toml").is_some_and(is_whole)
        || begins("prescription.toml").is_some_and(is_whole)
        || begins("prescription-").is_some_and(earlier);
    journal || (what == What::Everything && others)
}

/// Whether this can be an export, a report or a sheet, by its ending.
fn is_copy(name: &str) -> bool {
    let ending = Path::new(name).extension().and_then(|ending| ending.to_str()).unwrap_or_default();
    ["json", "csv", "html", "txt"].iter().any(|one| ending.eq_ignore_ascii_case(one))
}

/// The files among these whose name is so, in order, and the links, wherever they lead.
fn named(entries: fs::ReadDir, is_so: impl Fn(&str) -> bool) -> Vec<PathBuf> {
    let entries = entries.filter_map(Result::ok);
    let is_file =
        |entry: &fs::DirEntry| entry.file_type().is_ok_and(|kind| kind.is_file() || kind.is_symlink());
    let so = entries.filter(|entry| is_so(&entry.file_name().to_string_lossy()) && is_file(entry));
    let mut files: Vec<PathBuf> = so.map(|entry| entry.path()).collect();
    files.sort();
    files
}

/// Erases them. `lock`: nobody practices meanwhile.
///
/// # Errors
/// If one cannot be written over or removed; those before it are gone.
pub fn erase(lock: &Lock, what: What) -> Result<usize, JournalError> {
    let files = files(lock.folder(), what)?;
    for path in &files {
        remove(path).map_err(|source| JournalError::Unwritable { path: path.clone(), source })?;
    }
    let folder = lock.folder().path();
    sync_folder(Some(folder))
        .map_err(|source| JournalError::Unwritable { path: folder.to_owned(), source })?;
    Ok(files.len())
}

/// Overwrites and removes a plain file of one name. Of a link, and of a file that has another name elsewhere, only the name
/// here is ours: what it leads to stays as it is.
fn remove(path: &Path) -> io::Result<()> {
    if !fs::symlink_metadata(path)?.is_file() {
        return fs::remove_file(path);
    }
    let mut options = OpenOptions::new();
    options.write(true);
    // Whoever puts a link there meanwhile gets an error, and keeps the file.
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::custom_flags(
        &mut options,
        rustix::fs::OFlags::NOFOLLOW.bits().cast_signed(),
    );
    let mut file = options.open(path)?;
    #[cfg(unix)]
    if std::os::unix::fs::MetadataExt::nlink(&file.metadata()?) != 1 {
        return fs::remove_file(path);
    }
    let zeros = [0; BLOCK];
    let mut left = file.metadata()?.len();
    file.seek(SeekFrom::Start(0))?;
    while left > 0 {
        let size = left.min(BLOCK as u64) as usize;
        file.write_all(&zeros[..size])?;
        left -= size as u64;
    }
    File::sync_all(&file)?;
    file.set_len(0)?;
    file.sync_all()?;
    drop(file);
    fs::remove_file(path)
}

#[cfg(test)]
mod test {
    use std::fs;

    use super::{What, copies, erase, files};
    use crate::journal::sample::{id, keep, open, session};
    use crate::journal::{Folder, JournalError};
    use crate::settings::Settings;

    /// Words that stand in what is kept, and nowhere else.
    const MARK: &str = "a-word-that-nobody-else-writes";

    fn everything_in(place: &std::path::Path) -> Vec<u8> {
        let mut bytes = Vec::new();
        for entry in fs::read_dir(place).unwrap() {
            bytes.extend(fs::read(entry.unwrap().path()).unwrap());
        }
        bytes
    }

    fn holds(bytes: &[u8]) -> bool {
        bytes.windows(MARK.len()).any(|window| window == MARK.as_bytes())
    }

    #[test]
    fn what_was_erased_is_nowhere_in_the_folder_also_what_a_crash_left() {
        let place = tempfile::tempdir().unwrap();
        let folder = Folder::open_in(place.path()).unwrap();
        let mut journal = open(&folder);
        keep(&mut journal, &id(1), &session());
        journal.keep_clearance(&"2026-11-02T08:00:00Z[UTC]".parse().unwrap(), MARK, MARK, &[]).unwrap();
        drop(journal);
        for name in
            ["journal.sqlite-journal", "journal.sqlite-wal", "rescue-3f2a-1.json.set-aside", "fault-1.txt"]
        {
            fs::write(place.path().join(name), format!("...{MARK}...")).unwrap();
        }
        Settings::default().save(&folder).unwrap();
        fs::write(folder.prescription_file(), "kept").unwrap();
        fs::write(place.path().join("holiday.jpg"), "not ours").unwrap();
        assert!(holds(&everything_in(place.path())));
        assert_eq!(files(&folder, What::Journal).unwrap().len(), 7);
        let lock = folder.lock().unwrap();
        assert_eq!(erase(&lock, What::Journal).unwrap(), 7);
        assert!(!holds(&everything_in(place.path())));
        assert!(folder.settings_file().exists() && folder.prescription_file().exists());
        assert_eq!(erase(&lock, What::Everything).unwrap(), 2);
        assert!(!folder.settings_file().exists() && place.path().join("holiday.jpg").exists());
        drop(lock);
        // What is opened after it is a new journal.
        assert!(open(&folder).contents().unwrap().sessions.is_empty());
    }

    #[test]
    fn the_bytes_are_written_over_before_the_name_goes() {
        let place = tempfile::tempdir().unwrap();
        let path = place.path().join("journal.sqlite");
        assert!(
            copies(&Folder::open_in(place.path()).unwrap(), &[place.path().join("nowhere")])
                .unwrap()
                .is_empty()
        );
        fs::write(&path, MARK.repeat(10_000)).unwrap();
        // Whoever has it open still sees what became of its bytes.
        let open = fs::File::open(&path).unwrap();
        let folder = Folder::open_in(place.path()).unwrap();
        erase(&folder.lock().unwrap(), What::Journal).unwrap();
        assert_eq!(open.metadata().unwrap().len(), 0);
        assert!(!path.exists());
    }

    /// A link in the folder, and a file that has a name elsewhere too, whoever put it there.
    #[cfg(unix)]
    #[test]
    fn no_link_is_followed_and_nothing_that_has_a_name_elsewhere_is_overwritten() {
        let (place, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let other = |name: &str| {
            let path = elsewhere.path().join(name);
            fs::write(&path, MARK).unwrap();
            path
        };
        let (one, two, three) = (other("one"), other("two"), other("three"));
        let inside = |name: &str| place.path().join(name);
        std::os::unix::fs::symlink(&one, inside("rescue-1.json")).unwrap();
        std::os::unix::fs::symlink(&two, inside("settings.toml")).unwrap();
        std::os::unix::fs::symlink(inside("nowhere"), inside("fault-2.txt")).unwrap();
        fs::hard_link(&three, inside("journal.sqlite-wal")).unwrap();
        fs::create_dir(inside("rescue-a-folder.json")).unwrap();
        let not_ours = [
            "prescription-scan.pdf",
            "prescriptions",
            "rescue-dog.jpg",
            "fault-list.md",
            "journal.sqlite3",
            "settings.toml5",
        ];
        for name in not_ours {
            fs::write(inside(name), "not ours").unwrap();
        }
        let earlier =
            ["prescription-0123456789ab.toml", "prescription-0123456789ab.toml.new", "prescription.toml"];
        for name in earlier {
            fs::write(inside(name), "ours").unwrap();
        }
        let folder = Folder::open_in(place.path()).unwrap();
        assert_eq!(erase(&folder.lock().unwrap(), What::Everything).unwrap(), 4 + earlier.len());
        for path in [one, two, three] {
            assert_eq!(fs::read_to_string(path).unwrap(), MARK, "what it leads to is not ours");
        }
        let left = fs::read_dir(place.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap());
        let mut left: Vec<String> = left.filter(|name| name != "lock").collect();
        left.sort();
        let mut stays: Vec<String> = not_ours.iter().map(|name| (*name).to_owned()).collect();
        stays.push("rescue-a-folder.json".to_owned());
        stays.sort();
        assert_eq!(left, stays);
    }

    #[test]
    fn nobody_erases_under_a_practice() {
        let place = tempfile::tempdir().unwrap();
        let folder = Folder::open_in(place.path()).unwrap();
        let _practice = folder.lock().unwrap();
        assert!(matches!(folder.lock(), Err(JournalError::InUse { .. })));
        assert!(
            files(&Folder::open_in(place.path().join("nowhere")).unwrap(), What::Journal).unwrap().is_empty()
        );
    }
}
