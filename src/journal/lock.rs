//! The lock that practice takes on a person's folder, so that only one window practices. The system releases it when the
//! process ends, however it ends.

use std::fs::{File, TryLockError};
use std::io::{Read, Write};
use std::path::Path;
use std::time::Duration;

use super::{Folder, JournalError};

/// The file that is locked.
const NAME: &str = "lock";
/// How often, and how long apart, a lock that is taken is tried again.
const LOOKS: u32 = 5;
const LOOK: Duration = Duration::from_millis(20);

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
        let path = self.path().join(NAME);
        super::folder::make_private_file(&path)?;
        let unwritable = |source| JournalError::Unwritable { path: path.clone(), source };
        let file = File::options().write(true).open(&path).map_err(unwritable)?;
        // Whoever only looks whether it is taken has it for a moment.
        let mut taken = file.try_lock();
        for _ in 0..LOOKS {
            if !matches!(taken, Err(TryLockError::WouldBlock)) {
                break;
            }
            std::thread::sleep(LOOK);
            taken = file.try_lock();
        }
        match taken {
            Ok(()) => {
                // Only for the refusal of another window: that it cannot be written hinders nobody.
                let _ = file.set_len(0).and_then(|()| write!(&file, "{}", std::process::id()));
                Ok(Lock { folder: self.clone(), _file: file })
            }
            Err(TryLockError::WouldBlock) => {
                Err(JournalError::InUse { folder: self.path().to_owned(), by: holder(&path) })
            }
            Err(TryLockError::Error(source)) => Err(unwritable(source)),
        }
    }
}

/// The number of the process that has the lock, where it said so.
fn holder(path: &Path) -> Option<u32> {
    let mut said = String::new();
    File::open(path).ok()?.take(16).read_to_string(&mut said).ok()?;
    said.trim().parse().ok()
}

impl Folder {
    /// Whether another process has the lock.
    pub fn is_locked(&self) -> bool {
        is_locked(self.path())
    }
}

/// Whether a process has the lock of this folder. Where that cannot be found out, nobody is taken to have it.
pub(super) fn is_locked(folder: &Path) -> bool {
    let file = File::options().write(true).open(folder.join(NAME));
    file.is_ok_and(|file| matches!(file.try_lock_shared(), Err(TryLockError::WouldBlock)))
}

impl Lock {
    /// The folder that is locked.
    pub fn folder(&self) -> &Folder {
        &self.folder
    }
}
