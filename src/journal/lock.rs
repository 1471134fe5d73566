//! The lock that practice takes on a person's folder, so that only one window practices. The system releases it when the
//! process ends, however it ends.

use std::fs::{File, TryLockError};

use super::{Folder, JournalError};

/// The right to write into a folder's journal, for as long as this value lives.
#[derive(Debug)]
pub struct Lock {
    folder: Folder,
    // Closing the file lets go of the lock. The file itself stays: to delete it would let two windows lock two files.
    _file: File,
}

impl Folder {
    /// Takes the lock, making the folder on first use.
    ///
    /// # Errors
    /// If another process has it, or the folder cannot be made or written.
    pub fn lock(&self) -> Result<Lock, JournalError> {
        self.make()?;
        let path = self.path().join("lock");
        super::folder::make_private_file(&path)?;
        let unwritable = |source| JournalError::Unwritable { path: path.clone(), source };
        let file = File::options().write(true).open(&path).map_err(unwritable)?;
        match file.try_lock() {
            Ok(()) => Ok(Lock { folder: self.clone(), _file: file }),
            Err(TryLockError::WouldBlock) => Err(JournalError::InUse { folder: self.path().to_owned() }),
            Err(TryLockError::Error(source)) => Err(unwritable(source)),
        }
    }
}

impl Lock {
    /// The folder that is locked.
    pub fn folder(&self) -> &Folder {
        &self.folder
    }
}
