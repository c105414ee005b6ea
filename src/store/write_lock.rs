//! Replacing a file so that at any moment the old one or the new one is there, whole.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use fs4::TryLockError;

use super::error::StoreError;

/// The right to write in a folder, which one program has at a time.
///
/// A file of its own is locked, since the files that are written are replaced. The system releases
/// the lock when the program ends, however it ends. The file stays for the next program.
pub(super) struct WriteLock {
    folder: PathBuf,
    _lock: File,
}

impl WriteLock {
    /// Locks a folder, which is made where there is none. Never waits: a program that was stopped
    /// while it held the lock would make every other program hang.
    pub(super) fn acquire(folder: &Path) -> Result<WriteLock, StoreError> {
        fs::create_dir_all(folder)?;
        let file = folder.join("lock");
        // Opening a pipe would wait until somebody reads it.
        if fs::metadata(&file).is_ok_and(|about| !about.is_file()) {
            return Err(io::Error::other("its lock is no file").into());
        }
        let lock = File::options().create(true).truncate(false).write(true).open(file)?;
        match fs4::FileExt::try_lock(&lock) {
            Ok(()) => Ok(WriteLock { folder: folder.to_owned(), _lock: lock }),
            Err(TryLockError::WouldBlock) => Err(StoreError::Busy),
            Err(TryLockError::Error(error)) => Err(error.into()),
        }
    }

    /// Makes `content` the content of the file of that name. It is written to a new file, which
    /// replaces the old one once it is safely on the disk.
    pub(super) fn replace_file(&self, name: &str, content: &str) -> io::Result<()> {
        let new = self.folder.join(format!("{name}.new"));
        // What an end too early has left is in the way; whatever it is, nothing is written there.
        let _ = fs::remove_file(&new);
        let mut file = File::create_new(&new)?;
        file.write_all(content.as_bytes())?;
        file.sync_all()?;
        drop(file);
        fs::rename(&new, self.folder.join(name))?;
        self.sync_folder()
    }

    /// The new name is on the disk only when the folder has been synced too.
    #[cfg(unix)]
    fn sync_folder(&self) -> io::Result<()> {
        File::open(&self.folder)?.sync_all()
    }

    /// On other systems a folder cannot be opened as a file, and need not be synced.
    #[cfg(not(unix))]
    #[expect(clippy::unused_self, reason = "on Unix it has a folder to sync")]
    fn sync_folder(&self) -> io::Result<()> {
        Ok(())
    }
}
