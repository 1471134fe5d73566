//! Another prescription comes into use: it is copied into the person's folder and the change is journaled. Whether
//! it is within the limits was checked before (`prescription`).

use std::fmt;
use std::fs;
use std::io;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use rusqlite::{Connection, TransactionBehavior, params};

use super::{Folder, Journal, JournalError};
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::{ChangeRow, Stamp};

const IN_USE: &str = "prescription in use: ";
const NOT_TAKEN: &str = "prescription not taken: ";

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
        let then = short(&self.handed_over.digest);
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

/// The first digits of a digest as it is kept.
pub(crate) fn short(digest: &str) -> &str {
    let digits = digest.strip_prefix("sha256:").unwrap_or(digest);
    digits.get(..8).unwrap_or(digits)
}

impl Journal {
    /// What was handed over last and came into use up to this moment, in milliseconds since 1970; `None` if nothing was.
    ///
    /// # Errors
    /// If the journal cannot be read.
    pub fn handed_over(&self, up_to_ms: i64) -> Result<Option<ChangeRow>, JournalError> {
        let changes = self.changes()?;
        let used = |row: &ChangeRow| row.what.starts_with(IN_USE) && row.at.ms() <= up_to_ms;
        Ok(changes.into_iter().rev().find(used))
    }

    /// Everything that was handed over and came into use, oldest first: the local day, and its digest.
    ///
    /// # Errors
    /// If the journal cannot be read.
    pub fn all_handed_over(&self) -> Result<Vec<(Date, String)>, JournalError> {
        let used = self.changes()?.into_iter().filter(|row| row.what.starts_with(IN_USE));
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
        let same = now.is_some_and(|now| now.to_string() == handed_over.digest);
        Ok((!same).then_some(Altered { handed_over, now }))
    }

    /// Keeps that somebody said no to a prescription that was offered, so that it is not offered again.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn decline(&mut self, bytes: &[u8], source: &str, at: &ZonedDateTime) -> Result<(), JournalError> {
        let change = ChangeRow {
            at: Stamp::from(at),
            what: format!("{NOT_TAKEN}{source}"),
            digest: Digest::of(bytes).to_string(),
        };
        self.change(|db| insert_change(db, &change))
    }

    /// Makes these bytes the prescription in use. The one before is kept beside it, named by its digest.
    ///
    /// # Errors
    /// If the folder or the journal cannot be written. The one before is then still in use.
    pub fn adopt(&mut self, bytes: &[u8], source: &str, at: &ZonedDateTime) -> Result<(), JournalError> {
        let Some(folder) = self.folder().cloned() else {
            return Err(JournalError::ReadOnly { path: self.path.clone() });
        };
        let file = folder.prescription_file();
        let digest = Digest::of(bytes);
        match fs::read(&file) {
            Ok(before) if Digest::of(&before) != digest => {
                let name: String =
                    Digest::of(&before).as_bytes()[..4].iter().map(|b| format!("{b:02x}")).collect();
                folder.write(&folder.path().join(format!("prescription-{name}.toml")), &before)?;
            }
            Err(source) if source.kind() != io::ErrorKind::NotFound => {
                return Err(JournalError::Unreadable { path: file, source });
            }
            _ => {}
        }
        let change =
            ChangeRow { at: Stamp::from(at), what: format!("{IN_USE}{source}"), digest: digest.to_string() };
        let path = self.path.clone();
        let at = |source| JournalError::from_sqlite(&path, source);
        let kept = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(at)?;
        insert_change(&kept, &change).map_err(at)?;
        folder.write(&file, bytes)?;
        kept.commit().map_err(at)
    }
}

pub(super) fn insert_change(db: &Connection, row: &ChangeRow) -> rusqlite::Result<bool> {
    let sql = "INSERT INTO changes (at, at_ms, what, digest) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING";
    Ok(db.prepare_cached(sql)?.execute(params![row.at.text(), row.at.ms(), row.what, row.digest])? == 1)
}
