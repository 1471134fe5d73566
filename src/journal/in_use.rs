//! Which prescription came into use, and whether its file is still the same.

use std::fmt;
use std::fs;
use std::io;

use jiff::civil::Date;

use super::{Folder, Journal, JournalError};
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::{Change, ChangeRow};

/// The file in use is not the one that came into use: somebody changed it since. `Display` says it, for whoever reads
/// what was practiced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Altered {
    /// When the one that was handed over came into use, and its digest.
    pub handed_over: ChangeRow,
    /// The digest of the file that is there now; `None` if it is gone.
    pub now: Option<Digest>,
}

impl fmt::Display for Altered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let then = self.handed_over.digest.short();
        let at = self.handed_over.at.minute();
        match &self.now {
            Some(now) => write!(
                f,
                "the prescription in use is not the one that came into use on {at}: its digest was {then} and is {}",
                now.short()
            ),
            None => {
                write!(f, "the prescription that came into use on {at} (digest {then}) is not there any more")
            }
        }
    }
}

impl Journal {
    /// What was handed over last and came into use up to this moment, in milliseconds since 1970; `None` if nothing was.
    ///
    /// # Errors
    /// If the journal cannot be read.
    pub fn handed_over(&self, up_to_ms: i64) -> Result<Option<ChangeRow>, JournalError> {
        let used = |row: &ChangeRow| row.what == Change::InUse && row.at.ms() <= up_to_ms;
        Ok(self.changes()?.into_iter().rev().find(used))
    }

    /// Everything that was handed over and came into use, oldest first: the local day, and its digest.
    ///
    /// # Errors
    /// If the journal cannot be read.
    pub fn all_handed_over(&self) -> Result<Vec<(Date, Digest)>, JournalError> {
        let used = self.changes()?.into_iter().filter(|row| row.what == Change::InUse);
        Ok(used.filter_map(|row| Some((row.at.day()?, row.digest))).collect())
    }

    /// Whether the file in use was changed since it came into use.
    ///
    /// # Errors
    /// If the journal or the file cannot be read.
    pub fn altered(&self, folder: &Folder) -> Result<Option<Altered>, JournalError> {
        let Some(handed_over) = self.handed_over(i64::MAX)? else { return Ok(None) };
        let path = folder.prescription_file();
        let now = match fs::read(&path) {
            Ok(bytes) => Some(Digest::of(&bytes)),
            Err(source) if source.kind() == io::ErrorKind::NotFound => None,
            Err(source) => return Err(JournalError::Unreadable { path, source }),
        };
        Ok((now != Some(handed_over.digest)).then_some(Altered { handed_over, now }))
    }
}
