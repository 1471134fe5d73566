//! A file that may be imported: its bytes, its kind, what it holds, and whether it seems to be the same person's journal.

use std::borrow::Cow;
use std::fmt;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use jiff::civil::Date;
use serde::Deserialize;

use super::export::{Export, SCHEMA};
use super::rescue::{self, Rescue};
use super::{Journal, JournalError, SessionId};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::SessionRecord;
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
    pub(super) what: What,
}

#[derive(Debug, Clone)]
pub(super) enum What {
    Export(Box<Export>),
    Rescue(Box<Rescue>),
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

    fn of(sessions: &[SessionRecord], tests: usize) -> Self {
        let mut holds = Self { tests, ..Self::default() };
        for session in sessions.iter().filter(|session| !session.sets.is_empty()) {
            holds.count(session.start.begun.day(), &session.start.title);
        }
        holds
    }
}

#[derive(Deserialize)]
struct Head {
    schema: String,
}

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
        let later = |reason: String| JournalError::FromLater { file: name.to_owned(), reason };
        let what = match head.schema.as_str() {
            SCHEMA => serde_json::from_slice(bytes).map(What::Export).map_err(|error| {
                match error.to_string() {
                    unknown if unknown.starts_with("unknown field") => {
                        // The names that it could have been are of no use to whoever reads this.
                        let field = unknown.split(',').next().unwrap_or_default();
                        later(format!("{field} (line {})", error.line()))
                    }
                    reason => refuse(reason),
                }
            })?,
            rescue::SCHEMA => What::Rescue(Box::new(rescue::read(bytes).map_err(refuse)?)),
            other => {
                let reason = format!("its `schema` is \"{other}\"; this version reads \"{SCHEMA}\"");
                let is_ours = SCHEMA.split('/').next().is_some_and(|stem| other.starts_with(stem));
                return Err(if is_ours { later(reason) } else { refuse(reason) });
            }
        };
        Ok(Self { name: name.to_owned(), what })
    }

    /// The export that it is.
    ///
    /// # Errors
    /// If it is a rescue file, which is only the end of a practice.
    pub(super) fn into_export(self) -> Result<Export, JournalError> {
        match self.what {
            What::Export(export) => Ok(*export),
            What::Rescue(_) => {
                let reason = "it is a rescue file, which belongs to the journal it was made for".to_owned();
                Err(JournalError::NotImported { file: self.name, reason })
            }
        }
    }

    /// What it holds.
    pub fn holds(&self) -> Holds {
        match &self.what {
            What::Export(export) => Holds::of(&export.sessions, export.tests.len()),
            What::Rescue(rescue) => {
                let mut holds = Holds::default();
                if let Some(row) = rescue.begun() {
                    holds.count(row.begun.day(), &row.title);
                }
                holds
            }
        }
    }

    /// Whether it shares nothing with a journal that has something in it already: then it is probably somebody else's. That
    /// both practice by the same ready prescription says nothing, for everybody has those.
    ///
    /// # Errors
    /// If the journal cannot be read.
    pub fn seems_foreign(&self, journal: &Journal) -> Result<bool, JournalError> {
        let Export { sessions, changes, suitability, clearances, tests, .. } = journal.whole()?;
        let is_empty =
            sessions.is_empty() && suitability.is_empty() && clearances.is_empty() && tests.is_empty();
        if is_empty {
            return Ok(false);
        }
        let own = |digest: &str| {
            digest.parse().ok().is_none_or(|digest| Prescription::ready_with(&digest).is_none())
        };
        let here = sessions.iter().map(|session| &session.start.digest);
        let here: Vec<&String> =
            here.chain(changes.iter().map(|row| &row.digest)).filter(|one| own(one)).collect();
        let known = |id: &SessionId, digest: &String| {
            sessions.iter().any(|session| session.id == *id) || here.contains(&digest)
        };
        Ok(match &self.what {
            What::Rescue(rescue) => {
                !known(rescue.session(), &rescue.begun().map_or_else(String::new, |row| row.digest.clone()))
            }
            What::Export(file) => {
                let is_empty = file.sessions.is_empty() && file.suitability.is_empty();
                let is_empty = is_empty && file.clearances.is_empty() && file.tests.is_empty();
                let shares = file.sessions.iter().any(|session| known(&session.id, &session.start.digest))
                    || file.changes.iter().any(|row| here.contains(&&row.digest))
                    || file.suitability.iter().any(|row| suitability.contains(row))
                    || file.clearances.iter().any(|row| clearances.contains(row))
                    || file.tests.iter().any(|row| tests.contains(row));
                !(is_empty || shares)
            }
        })
    }
}

impl Journal {
    /// What this journal holds.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn holds(&self) -> Result<Holds, JournalError> {
        let whole = self.whole()?;
        Ok(Holds::of(&whole.sessions, whole.tests.len()))
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
