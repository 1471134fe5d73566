//! The safety record's file: made whole before practice, each mark written in place and synced, so that it needs no block that
//! the disk may not have. What it means beside the journal is decided in the core.

use std::fs::{self, File};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use counterpoise_core::course::past::Lifted;
use counterpoise_core::course::safeguard::{self, lifts};
use counterpoise_core::course::trainee::Trainee;
use counterpoise_core::record::safety_record::{HEADER_BYTES, MARK_BYTES, RECORD_BYTES, header};
use counterpoise_core::record::{Id, Mark, SafetyRecord, What};
use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::folder::{fill, make_private_file, sync_folder};
use super::{Folder, JournalError};

/// The file of a folder that may be written, shared by the journal and by whoever keeps a practice.
#[derive(Debug, Clone)]
pub(super) struct SafetyFile(Arc<Mutex<Open>>);

#[derive(Debug)]
struct Open {
    file: File,
    journal: Id,
    record: SafetyRecord,
    /// What answers about a session that is over barred since the file was opened.
    answered: Vec<Mark>,
}

/// How the file was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    /// There was none.
    Missing,
    /// Bytes of it were missing, or not what was written.
    Damaged,
    /// It lay beside another journal.
    OfAnother,
    /// As it was left, up to this number.
    Whole(u32),
}

/// What stands in the way beside a journal.
#[derive(Debug)]
pub(super) enum Guard {
    /// Nothing is known: a journal in memory, or a copy that lies alone.
    Nothing,
    /// As it was read.
    Read(Vec<Mark>),
    /// A file that may be written.
    Open(SafetyFile),
}

impl Guard {
    /// What stands.
    pub(super) fn standing(&self) -> Vec<Mark> {
        match self {
            Self::Nothing => Vec::new(),
            Self::Read(marks) => marks.clone(),
            Self::Open(file) => file.standing(),
        }
    }

    /// The file, if it may be written.
    pub(super) fn file(&self) -> Option<&SafetyFile> {
        match self {
            Self::Open(file) => Some(file),
            _ => None,
        }
    }
}

/// The record as it stands with these that never had a mark.
pub(super) fn read_with(
    folder: &Path,
    journal: Id,
    unknown: impl IntoIterator<Item = Id>,
) -> Result<Vec<Mark>, JournalError> {
    let mut record = read(folder)?.unwrap_or_else(|| SafetyRecord::new(journal));
    for id in unknown {
        if record.marks().all(|mark| mark.session != id) {
            let mark = safeguard::unknown(journal, id, Timestamp::UNIX_EPOCH, jiff::civil::date(1970, 1, 1));
            // A record that is full of locks bars already.
            let _ = record.keep(mark);
        }
    }
    Ok(record.standing())
}

pub(super) fn path_in(folder: &Path) -> PathBuf {
    folder.join("safety-record")
}

/// The record of a folder as it is, for reading. `None` where there is none.
///
/// # Errors
/// If it cannot be read.
pub(super) fn read(folder: &Path) -> Result<Option<SafetyRecord>, JournalError> {
    let path = path_in(folder);
    let unreadable = |source| JournalError::Unreadable { path: path.clone(), source };
    match fs::symlink_metadata(&path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(unreadable(error)),
        Ok(metadata) if !metadata.is_file() => {
            return Err(unreadable(io::Error::other("it is no plain file")));
        }
        Ok(_) => {}
    }
    let mut bytes = Vec::new();
    let most = RECORD_BYTES as u64 + 1;
    File::open(&path).and_then(|file| file.take(most).read_to_end(&mut bytes)).map_err(unreadable)?;
    Ok(Some(SafetyRecord::read(&bytes)))
}

impl SafetyFile {
    /// Opens the file for writing, or makes it. What is torn or damaged becomes a lock that says so, and the file is whole after
    /// it.
    ///
    /// # Errors
    /// If it can neither be read nor made: then nothing may begin.
    pub(super) fn open(folder: &Folder, journal: Id) -> Result<(Self, Found), JournalError> {
        let path = path_in(folder.path());
        let unwritable = |source| JournalError::unwritable(&path, source);
        let found = read(folder.path())?;
        let how = match &found {
            None => Found::Missing,
            Some(record) if record.unknown().next().is_some() || record.journal().is_none() => Found::Damaged,
            Some(record) if record.journal() != Some(journal) => Found::OfAnother,
            Some(record) => Found::Whole(record.last_number()),
        };
        let record = found.unwrap_or_else(|| SafetyRecord::new(journal));
        make_private_file(&path)?;
        fill(&path, RECORD_BYTES as u64).map_err(unwritable)?;
        let file = File::options().read(true).write(true).open(&path).map_err(unwritable)?;
        let mut open = Open { file, journal, record, answered: Vec::new() };
        open.mend().map_err(unwritable)?;
        sync_folder(Some(folder.path())).map_err(unwritable)?;
        Ok((Self(Arc::new(Mutex::new(open))), how))
    }

    fn open_file<T>(&self, act: impl FnOnce(&mut Open) -> T) -> T {
        // A thread that broke down while it wrote left a mark that is whole or torn, and either counts.
        act(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// What stands in it.
    pub(super) fn standing(&self) -> Vec<Mark> {
        self.open_file(|open| open.record.standing())
    }

    /// The highest number in it.
    pub(super) fn last_number(&self) -> u32 {
        self.open_file(|open| open.record.last_number())
    }

    /// Writes those of these marks that do not stand in it yet, each synced before the next.
    ///
    /// # Errors
    /// If one cannot be written.
    pub(super) fn keep(&self, marks: &[Mark]) -> io::Result<()> {
        self.open_file(|open| {
            for mark in marks {
                let same = |one: &Mark| (one.what, one.session) == (mark.what, mark.session);
                if !open.record.standing().iter().any(same) {
                    open.write(*mark)?;
                }
            }
            Ok(())
        })
    }

    /// Clears what stands and is among these, at this moment in milliseconds since 1970.
    ///
    /// # Errors
    /// If it cannot be written. Then it stands.
    pub(super) fn clear(&self, marks: &[Mark], at_ms: i64) -> io::Result<()> {
        self.open_file(|open| {
            for mark in marks {
                let same = |one: &Mark| (one.what, one.session) == (mark.what, mark.session);
                let numbers: Vec<u32> =
                    open.record.standing().iter().filter(|one| same(one)).map(|one| one.number).collect();
                for number in numbers {
                    open.write(Mark { what: What::Clears(number), at_ms, ..*mark })?;
                }
            }
            Ok(())
        })
    }

    /// Clears what a clearance lifted, which the journal has already.
    ///
    /// # Errors
    /// As [`Self::clear`].
    pub(super) fn lift(&self, lifted: &[Lifted], at_ms: i64) -> io::Result<()> {
        let is_lifted = |mark: &Mark| lifted.iter().any(|one| lifts(&one.session, one.what, mark));
        let marks: Vec<Mark> = self.standing().into_iter().filter(is_lifted).collect();
        self.clear(&marks, at_ms)
    }

    /// Adds a lock of which nobody knows the kind, for each of these that never had a mark.
    ///
    /// # Errors
    /// If it cannot be written.
    pub(super) fn keep_unknown(&self, sessions: impl IntoIterator<Item = Id>) -> io::Result<()> {
        self.open_file(|open| {
            let (at, day) = open.written();
            for id in sessions {
                if open.record.marks().all(|mark| mark.session != id) {
                    open.write(safeguard::unknown(open.journal, id, at, day))?;
                }
            }
            Ok(())
        })
    }

    /// Adds what the journal bars.
    ///
    /// # Errors
    /// If it cannot be written.
    pub(super) fn add(&self, known: &Trainee) -> io::Result<()> {
        let journal = self.open_file(|open| open.journal);
        self.keep(&known.marks(journal))
    }

    /// Adds what the journal bars and clears what it knows to be over.
    ///
    /// # Errors
    /// If it cannot be written.
    pub(super) fn follow(&self, known: &Trainee) -> io::Result<()> {
        self.add(known)?;
        let standing = self.standing();
        for mark in known.over(&standing) {
            self.clear(&[*mark], mark.at_ms)?;
        }
        Ok(())
    }

    /// Clears what answers about this session barred since the file was opened and the journal, which has all of them, does not
    /// bar any more. `before`: what stood before the last answer.
    ///
    /// # Errors
    /// If it cannot be written. Then it stands.
    pub(super) fn settle(&self, session: Id, before: &[Mark], known: &[Mark], at_ms: i64) -> io::Result<()> {
        let over = self.open_file(|open| {
            let new = open.record.standing().into_iter();
            open.answered.extend(new.filter(|mark| mark.session == session && !before.contains(mark)));
            let is_known =
                |mark: &Mark| known.iter().any(|one| (one.what, one.session) == (mark.what, mark.session));
            let (stay, over): (Vec<Mark>, Vec<Mark>) = open.answered.drain(..).partition(is_known);
            open.answered = stay;
            over
        });
        self.clear(&over, at_ms)
    }

    /// Whether there is a mark of this that stands.
    pub(super) fn bars(&self, session: Id) -> bool {
        self.standing().iter().any(|mark| mark.session == session)
    }

    /// The journal beside it has another id now.
    ///
    /// # Errors
    /// If it cannot be written.
    pub(super) fn rename(&self, journal: Id) -> io::Result<()> {
        self.open_file(|open| {
            open.journal = journal;
            open.put(0, &header(journal))?;
            open.record.renew(journal);
            Ok(())
        })
    }
}

impl Open {
    /// Gives every place of which nobody knows what stood there a mark that says so, and then the header its bytes.
    fn mend(&mut self) -> io::Result<()> {
        let (at, day) = self.written();
        let unknown: Vec<(Option<usize>, Mark)> = self.record.unknown().collect();
        for (nth, mark) in unknown {
            let mark = safeguard::unknown(self.journal, mark.session, at, day);
            match nth {
                Some(nth) => {
                    let mark = Mark { number: self.record.last_number().saturating_add(1), ..mark };
                    self.put(HEADER_BYTES + nth * MARK_BYTES, &mark.bytes())?;
                    self.record.mend(nth, mark);
                }
                None => self.write(mark)?,
            }
        }
        if self.record.journal() != Some(self.journal) {
            self.put(0, &header(self.journal))?;
            self.record.renew(self.journal);
        }
        self.put(0, &header(self.journal))
    }

    /// When the file was changed last: what was torn is from then.
    fn written(&self) -> (Timestamp, jiff::civil::Date) {
        let at = self.file.metadata().and_then(|metadata| metadata.modified()).ok();
        let at = at.and_then(|at| Timestamp::try_from(at).ok()).unwrap_or_default();
        (at, at.to_zoned_datetime(TimeZone::system()).date())
    }

    fn write(&mut self, mark: Mark) -> io::Result<()> {
        let mut record = self.record.clone();
        let journal = self.journal;
        let (nth, mark) = record.keep(Mark { journal, ..mark }).map_err(io::Error::other)?;
        self.put(HEADER_BYTES + nth * MARK_BYTES, &mark.bytes())?;
        self.record = record;
        Ok(())
    }

    /// Writes over the bytes that are there, and brings them onto the disk.
    fn put(&mut self, from: usize, bytes: &[u8]) -> io::Result<()> {
        self.file.seek(SeekFrom::Start(from as u64))?;
        self.file.write_all(bytes)?;
        self.file.sync_data()
    }
}

#[cfg(test)]
mod test;
