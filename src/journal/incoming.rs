//! A file that may be imported: its bytes, its kind, what it holds, and whether it seems to be the same person's journal.

use std::borrow::Cow;
use std::collections::HashSet;
use std::fmt;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use jiff::civil::Date;
use serde::Deserialize;

use super::export::{ANY_SCHEMA, EntriesFile, SCHEMA};
use super::{Journal, JournalError, lines, rescue};
use counterpoise_core::plan::prescription::{Digest, Prescription};
use counterpoise_core::record::{Contents, Id, Line, first_hidden, old};
use counterpoise_core::words::Printable;

/// So many titles of prescriptions are named \[judgment\].
const TITLES: usize = 4;

/// The most bytes that are read of a file that may be an export: those of a lifetime have less \[judgment\].
pub const LONGEST: u64 = 1 << 28;

/// The bytes of a file that may be an export, or `None` if it has more than [`LONGEST`]: also what has no end (`/dev/zero`) is
/// left again.
///
/// # Errors
/// If the file cannot be read.
pub fn bytes_of(path: &Path) -> io::Result<Option<Vec<u8>>> {
    let file = File::open(path)?;
    if file.metadata()?.len() > LONGEST {
        return Ok(None);
    }
    let mut bytes = Vec::new();
    file.take(LONGEST + 1).read_to_end(&mut bytes)?;
    Ok(Some(bytes).filter(|bytes| bytes.len() as u64 <= LONGEST))
}

/// A file that was read, and nothing of it taken in yet.
#[derive(Debug, Clone)]
pub struct Incoming {
    /// How the file was named.
    pub(super) name: String,
    /// The id of the journal that it is from, where it says so.
    pub(super) journal: Option<Id>,
    pub(super) lines: Vec<Line>,
    /// What could not be written of a practice.
    pub(super) is_rescue: bool,
}

/// What a journal, or a file of one, holds, for a person to recognize. `Display` says it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Holds {
    /// Sessions in which a set was begun.
    pub practices: usize,
    /// Their first and their last day.
    pub days: Option<(Date, Date)>,
    /// The titles of their prescriptions, each once.
    pub titles: Vec<String>,
    /// Balance tests.
    pub tests: usize,
}

impl fmt::Display for Holds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.practices, self.days) {
            (0, _) | (_, None) => write!(f, "no practice")?,
            (1, Some((day, _))) => write!(f, "1 practice, of {day}")?,
            (count, Some((first, last))) => write!(f, "{count} practices, from {first} to {last}")?,
        }
        let named = self.titles.iter().take(TITLES).map(|title| format!("\"{title}\"")).collect::<Vec<_>>();
        if !named.is_empty() {
            let more = if self.titles.len() > TITLES { " and others" } else { "" };
            write!(f, ", by {}{more}", named.join(", "))?;
        }
        match self.tests {
            0 => Ok(()),
            1 => write!(f, "; 1 balance test"),
            tests => write!(f, "; {tests} balance tests"),
        }
    }
}

impl Holds {
    fn count(&mut self, day: Option<Date>, title: &str) {
        self.practices += 1;
        if let Some(day) = day {
            let (first, last) = self.days.unwrap_or((day, day));
            self.days = Some((first.min(day), last.max(day)));
        }
        // A file can say anything, also what a terminal would obey.
        let title = Printable::of(title).to_string();
        if !self.titles.contains(&title) {
            self.titles.push(title);
        }
    }

    fn of(contents: &Contents) -> Self {
        let mut holds = Self { tests: contents.tests.len(), ..Self::default() };
        for session in contents.sessions.iter().filter(|session| !session.sets.is_empty()) {
            holds.count(session.start.begun.day(), &session.start.title);
        }
        holds
    }
}

#[derive(Deserialize)]
struct Head {
    schema: String,
}

/// The form of an export before entries had ids.
const OLD_SCHEMA: &str = "counterpoise.journal/1";

impl Incoming {
    /// Reads the bytes of the file called `name`: an export, or a rescue file from elsewhere.
    ///
    /// # Errors
    /// If it is neither, is not whole, or was written by a later version.
    pub fn read(name: &str, bytes: &[u8]) -> Result<Self, JournalError> {
        let refuse = |reason: String| JournalError::NotImported { file: name.to_owned(), reason };
        let bytes = &*plain(bytes);
        if bytes.iter().all(u8::is_ascii_whitespace) {
            return Err(refuse("it is empty (line 1)".to_owned()));
        }
        let head: Head = serde_json::from_slice(bytes).map_err(|error| refuse(broken(&error)))?;
        let of_form = |is_rescue: bool| -> serde_json::Result<Self> {
            let EntriesFile { journal, entries, .. } = serde_json::from_slice(bytes)?;
            Ok(Self { name: name.to_owned(), journal, lines: entries, is_rescue })
        };
        let of_old = |lines: serde_json::Result<Vec<Line>>, is_rescue| {
            lines.map(|lines| Self { name: name.to_owned(), journal: None, lines, is_rescue })
        };
        let read = match head.schema.as_str() {
            SCHEMA => of_form(false),
            rescue::SCHEMA => of_form(true),
            OLD_SCHEMA => of_old(old::lines_of_export(bytes), false),
            rescue::OLD_SCHEMA => of_old(old::lines_of_rescue(bytes), true),
            other => {
                let reason = format!("its `schema` is \"{other}\"; this version reads \"{SCHEMA}\"");
                let is_ours = other.starts_with(ANY_SCHEMA);
                return Err(match is_ours {
                    true => JournalError::FromLater { file: name.to_owned(), reason },
                    false => refuse(reason),
                });
            }
        };
        let read = read.map_err(|error| refuse(error.to_string()))?;
        // What this computer could not write into its journal is taken in whatever it holds; it is escaped where it is printed.
        if !read.is_rescue {
            read.only_printable()?;
        }
        Ok(read)
    }

    /// Refuses text that a terminal would obey, or that nobody sees.
    ///
    /// # Errors
    /// If there is some.
    pub(super) fn only_printable(&self) -> Result<(), JournalError> {
        for line in &self.lines {
            if let Some((hidden, text)) = first_hidden(&line.entry) {
                let reason = format!(
                    "entry {}: \"{text}\" has the character {} in it, which cannot be seen",
                    line.id,
                    hidden.escape_unicode()
                );
                return Err(JournalError::NotImported { file: self.name.clone(), reason });
            }
        }
        Ok(())
    }

    /// A journal as a file that may be imported.
    ///
    /// # Errors
    /// If it cannot be read.
    pub(super) fn of(journal: &Journal) -> Result<Self, JournalError> {
        Ok(Self {
            name: journal.path.display().to_string(),
            journal: Some(journal.id()?),
            lines: journal.consistent(lines::all)?,
            is_rescue: false,
        })
    }

    /// The same, if it is an export.
    ///
    /// # Errors
    /// If it is a rescue file, which is only the end of a practice.
    pub(super) fn into_export(self) -> Result<Self, JournalError> {
        match self.is_rescue {
            false => Ok(self),
            true => {
                let reason = "it is a rescue file, which belongs to the journal it was made for".to_owned();
                Err(JournalError::NotImported { file: self.name, reason })
            }
        }
    }

    /// The same, if it is a rescue file.
    ///
    /// # Errors
    /// If it is an export.
    pub(super) fn into_rescue(self) -> Result<Self, JournalError> {
        match self.is_rescue {
            true => Ok(self),
            false => {
                let reason = "it is an export and no rescue file".to_owned();
                Err(JournalError::NotImported { file: self.name, reason })
            }
        }
    }

    /// What it holds.
    pub fn holds(&self) -> Holds {
        Holds::of(&Contents::of(self.lines.clone()))
    }

    /// Whether it shares nothing with a journal that has something in it already: then it is probably somebody else's. That
    /// both practice by the same ready prescription says nothing, for everybody has those.
    ///
    /// # Errors
    /// If the journal cannot be read.
    pub fn seems_foreign(&self, journal: &Journal) -> Result<bool, JournalError> {
        let lines = journal.consistent(lines::all)?;
        let known: HashSet<Id> = lines
            .iter()
            .flat_map(|line| [Some(line.id), Some(line.writer), line.session])
            .flatten()
            .collect();
        // Before lines had writers, all of one kind had the same.
        let writer = |line: &Line| Some(line.writer).filter(|_| line.format > 0);
        let shares = |line: &Line| {
            [Some(line.id), writer(line), line.session].into_iter().flatten().any(|id| known.contains(&id))
        };
        if self.lines.iter().any(shares) {
            return Ok(false);
        }
        let (here, file) = (Contents::of(lines), Contents::of(self.lines.clone()));
        let own = own_prescriptions(&here);
        Ok(!here.is_empty() && !self.lines.is_empty() && own_prescriptions(&file).is_disjoint(&own))
    }
}

/// The prescriptions that were practiced or came into use, without those that everybody has.
fn own_prescriptions(contents: &Contents) -> HashSet<Digest> {
    let practiced = contents.sessions.iter().map(|session| session.start.digest);
    let all = practiced.chain(contents.changes.iter().map(|row| row.digest));
    all.filter(|digest| Prescription::ready_with(digest).is_none()).collect()
}

impl Journal {
    /// What this journal holds.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn holds(&self) -> Result<Holds, JournalError> {
        Ok(Holds::of(&self.contents()?))
    }
}

/// What is wrong with a file that is not JSON, or not all of it.
fn broken(error: &serde_json::Error) -> String {
    match error.classify() {
        serde_json::error::Category::Data => error.to_string(),
        serde_json::error::Category::Eof => {
            format!("it ends in the middle, as a file does that was not copied whole ({error})")
        }
        _ => format!("it is no export: not JSON ({error})"),
    }
}

/// The text without what some systems put before it, and in the encoding that JSON has (RFC 8259: UTF-8, no byte order
/// mark): a shell that redirects output may write UTF-16.
fn plain(bytes: &[u8]) -> Cow<'_, [u8]> {
    match bytes {
        [0xEF, 0xBB, 0xBF, text @ ..] => Cow::Borrowed(text),
        [0xFF, 0xFE, text @ ..] => {
            let units = text.chunks(2).map(|pair| u16::from_le_bytes([pair[0], *pair.get(1).unwrap_or(&0)]));
            let text: String =
                char::decode_utf16(units).map(|sign| sign.unwrap_or(char::REPLACEMENT_CHARACTER)).collect();
            Cow::Owned(text.into_bytes())
        }
        _ => Cow::Borrowed(bytes),
    }
}

#[cfg(test)]
mod test;
