//! The journal and the safety record beside it, at every start and at every commit that bars or lifts something.

use std::collections::HashMap;
use std::fmt;
use std::path::{Path, PathBuf};

use counterpoise_core::course::past::{Barrier, Lifted};
use counterpoise_core::record::{Contents, Entry, Id, Line, Mark, What};
use rusqlite::{Connection, OptionalExtension};

use super::safety_file::{self, Found, Guard, SafetyFile};
use super::{Journal, JournalError, Notice, lines, rescue, summaries};

/// In what the safety record and the journal differed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SafetyNotice {
    /// The file is gone, and the journal knows that there was one.
    Gone,
    /// The file is older than the one that the journal knows.
    Older,
    /// Some of its bytes are not what was written.
    Damaged,
    /// It lay beside another journal: that was replaced, or this file was copied here.
    OfAnother,
    /// It has something that bars practice and that the journal does not have.
    More(Vec<Barrier>),
}

impl fmt::Display for SafetyNotice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Gone => {
                "the safety record was missing, so it was made again from the journal; every lock in the journal stands"
            }
            Self::Older => "the safety record is an older copy; every lock in it or in the journal stands",
            Self::Damaged => {
                "the safety record was damaged, so practice is locked until a clinician has cleared it with: counterpoise clear"
            }
            Self::OfAnother => {
                "the safety record was written beside another journal; every lock in it or in this journal stands"
            }
            Self::More(what) => {
                let names: Vec<_> = what.iter().map(|one| one.name()).collect();
                return write!(
                    f,
                    "the safety record has what the journal does not show as open ({}); it stands until it is cleared with: \
                     counterpoise clear",
                    names.join("; ")
                );
            }
        })
    }
}

impl Journal {
    /// Opens the safety record for writing. Without one nothing begins.
    pub(super) fn open_guard(&mut self) -> Result<Vec<Notice>, JournalError> {
        let Some(folder) = self.folder().cloned() else { return Ok(Vec::new()) };
        let (file, found) = SafetyFile::open(&folder, self.id()?)?;
        let known = self.consistent(last_number)?;
        self.guard = Guard::Open(file);
        let notice = match found {
            Found::Missing => known.map(|_| SafetyNotice::Gone),
            Found::Damaged => Some(SafetyNotice::Damaged),
            Found::OfAnother => Some(SafetyNotice::OfAnother),
            Found::Whole(number) => known.filter(|known| number < *known).map(|_| SafetyNotice::Older),
        };
        Ok(notice.map(Notice::Safety).into_iter().collect())
    }

    /// Brings the record up to what the journal and the files that were set aside bar, and says what only it has.
    pub(super) fn agree(&mut self) -> Result<Vec<Notice>, JournalError> {
        let Some(file) = self.guard.file().cloned() else { return Ok(Vec::new()) };
        let known = self.consistent(summaries::known)?;
        let barring = self.barring_files()?;
        let written = file.follow(&known).and_then(|()| file.keep_unknown(barring.iter().map(|(_, id)| *id)));
        written.map_err(|source| self.unguarded(source))?;
        let mut notices: Vec<Notice> = barring
            .iter()
            .filter(|(_, id)| file.bars(*id))
            .map(|(path, _)| Notice::Barred(path.clone()))
            .collect();
        let of_file = |session: Id| barring.iter().any(|(_, id)| *id == session);
        let (_, more) = known.beside(&file.standing());
        let more: Vec<Barrier> = more
            .iter()
            .filter(|mark| !of_file(mark.session))
            .filter_map(|mark| match mark.what {
                What::Bars(barrier) => Some(barrier),
                _ => None,
            })
            .collect();
        if !more.is_empty() {
            notices.push(Notice::Safety(SafetyNotice::More(more)));
        }
        remember(&self.db, file.last_number()).map_err(|source| self.sqlite(source))?;
        Ok(notices)
    }

    /// The same journal under the record that lies beside it, to look at.
    pub(super) fn under_its_record(mut self) -> Result<Self, JournalError> {
        let barring = self.barring_files()?.into_iter().map(|(_, id)| id);
        self.guard = Guard::Read(safety_file::read_with(self.place(), self.id()?, barring)?);
        Ok(self)
    }

    fn place(&self) -> &Path {
        self.path.parent().unwrap_or(Path::new(""))
    }

    /// The error of a record that could not be written.
    pub(super) fn unguarded(&self, source: std::io::Error) -> JournalError {
        JournalError::unwritable(&safety_file::path_in(self.place()), source)
    }

    /// Writes what these lines bar before the journal has them. `db`: the journal with them, in a commit that is not done.
    pub(super) fn guard_before(&self, db: &Connection, lines: &[Line]) -> Result<(), JournalError> {
        let Some(file) = self.guard.file() else { return Ok(()) };
        if !counterpoise_core::course::safeguard::can_bar(lines) {
            return Ok(());
        }
        let known = summaries::known(db).map_err(|source| self.sqlite(source))?;
        file.add(&known).map_err(|source| self.unguarded(source))
    }

    /// Writes what these lines lift, which the journal has by now.
    pub(super) fn guard_after(&self, lines: &[Line], lifted: &[Lifted]) -> Result<(), JournalError> {
        let Some(file) = self.guard.file() else { return Ok(()) };
        let answered =
            |line: &Line| matches!(line.entry.entry(), Some(Entry::Suitability(_) | Entry::Cleared(_)));
        let Some(at) = lines.iter().filter(|line| answered(line)).map(|line| line.at_ms).max() else {
            return Ok(());
        };
        let known = self.consistent(summaries::known)?;
        file.lift(lifted, at).and_then(|()| file.follow(&known)).map_err(|source| self.unguarded(source))
    }

    /// After an answer about a session that is over. What answers barred since this journal was opened, and this one says was not
    /// so, is cleared: a fall locks until it is said that it did no harm. `before`: what stood before the answer.
    pub(super) fn settle_marks(&self, session: Id, before: &[Mark], at_ms: i64) -> Result<(), JournalError> {
        let Some(file) = self.guard.file() else { return Ok(()) };
        let known = self.consistent(summaries::known)?.marks(self.id()?);
        file.settle(session, before, &known, at_ms).map_err(|source| self.unguarded(source))
    }

    /// The files that were set aside and hold something that may bar practice and that the journal does not have; each with the id
    /// that stands for its bytes.
    fn barring_files(&self) -> Result<Vec<(PathBuf, Id)>, JournalError> {
        let files = rescue::set_aside(self.place());
        if files.is_empty() {
            return Ok(Vec::new());
        }
        let all = self.consistent(lines::all)?;
        let misfits: Vec<Id> = Contents::of(all.clone()).misfits.iter().map(|misfit| misfit.id).collect();
        let placed: HashMap<Id, &Line> =
            all.iter().filter(|line| !misfits.contains(&line.id)).map(|line| (line.id, line)).collect();
        let is_there = |line: &Line| placed.get(&line.id) == Some(&line);
        Ok(files
            .into_iter()
            .filter_map(|path| Some((path.clone(), rescue::may_bar(&path, is_there)?)))
            .collect())
    }
}

/// The number up to which the journal knows the record; `None` if it never saw one.
fn last_number(db: &Connection) -> rusqlite::Result<Option<u32>> {
    let sql = "SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE name = 'safety')";
    if !db.query_row(sql, [], |row| row.get::<_, bool>(0))? {
        return Ok(None);
    }
    Ok(Some(db.query_row("SELECT number FROM safety", [], |row| row.get(0)).optional()?.unwrap_or(0)))
}

/// Keeps that there is a record, up to this number.
fn remember(db: &Connection, number: u32) -> rusqlite::Result<()> {
    if last_number(db)? == Some(number) {
        return Ok(());
    }
    let change = db.unchecked_transaction()?;
    change.execute_batch(include_str!("schema/safety.sql"))?;
    change.execute("DELETE FROM safety", [])?;
    change.execute("INSERT INTO safety VALUES (?)", [number])?;
    change.commit()
}
