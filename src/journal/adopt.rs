//! Another prescription comes into use: it is copied into the person's folder and the change is journaled. Whether
//! it is within the limits was checked before (`prescription`).

use std::fs;
use std::io;

use jiff::ZonedDateTime;
use rusqlite::{Connection, TransactionBehavior, params};

use super::read::ChangeRow;
use super::timestamp::Stamp;
use super::{Journal, JournalError};
use crate::prescription::Digest;

impl Journal {
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
        let change = ChangeRow {
            at: Stamp::from(at),
            what: format!("prescription in use: {source}"),
            digest: digest.to_string(),
        };
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
