//! Writing a file so that it is the old one or the new one, and never half of either.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use fs4::TryLockError;

use super::StoreError;

/// The right to write in a folder, which one program has at a time.
///
/// A file beside the state is locked, since the state itself is replaced. The system lets go of
/// the lock when the program ends, however it ends, and the file stays for the next one.
pub(super) struct Turn {
    folder: PathBuf,
    _lock: File,
}

impl Turn {
    /// Takes the turn in a folder, which is made where there is none. It never waits: a program
    /// that was stopped in its turn would let every other one hang.
    pub(super) fn take(folder: &Path) -> Result<Turn, StoreError> {
        fs::create_dir_all(folder)?;
        let lock =
            File::options().create(true).truncate(false).write(true).open(folder.join("lock"))?;
        match fs4::FileExt::try_lock(&lock) {
            Ok(()) => Ok(Turn { folder: folder.to_owned(), _lock: lock }),
            Err(TryLockError::WouldBlock) => Err(StoreError::Busy),
            Err(TryLockError::Error(error)) => Err(error.into()),
        }
    }

    /// Puts `content` in the file of that name: in a new file first, which takes the place of the
    /// old one when it is safely on the disk.
    pub(super) fn replace(&self, name: &str, content: &str) -> io::Result<()> {
        let new = self.folder.join(format!("{name}.new"));
        let mut file = File::create(&new)?;
        file.write_all(content.as_bytes())?;
        file.sync_all()?;
        drop(file);
        fs::rename(&new, self.folder.join(name))?;
        self.sync_folder()
    }

    /// A folder's own entries are on the disk only when it has been synced too.
    #[cfg(unix)]
    fn sync_folder(&self) -> io::Result<()> {
        File::open(&self.folder)?.sync_all()
    }

    /// Here a folder cannot be opened as a file, and need not be.
    #[cfg(not(unix))]
    #[expect(clippy::unused_self, reason = "elsewhere it has a folder to sync")]
    fn sync_folder(&self) -> io::Result<()> {
        Ok(())
    }
}
