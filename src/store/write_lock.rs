//! Replacing a file so that at any moment the old one or the new one is there, whole.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use fs4::TryLockError;

/// Why the right to write is not had.
#[derive(Debug)]
pub(super) enum NoLock {
    /// Another program has it.
    Taken,
    /// The system refused.
    Io(io::Error),
}

impl From<io::Error> for NoLock {
    fn from(error: io::Error) -> NoLock {
        NoLock::Io(error)
    }
}

/// The right to write in a folder, which one program has at a time.
///
/// A file of its own is locked, since the files that are written are replaced. The system releases
/// the lock when the program ends, however it ends. The file stays for the next program.
pub(super) struct WriteLock {
    folder: PathBuf,
    _lock: File,
}

impl WriteLock {
    /// Locks a folder, which is made where there is none, by its file of that name. Never waits: a
    /// program that was stopped while it held the lock would make every other program hang.
    pub(super) fn acquire(folder: &Path, name: &str) -> Result<WriteLock, NoLock> {
        fs::create_dir_all(folder)?;
        let file = folder.join(name);
        // Opening a pipe would wait until somebody reads it.
        if fs::metadata(&file).is_ok_and(|about| !about.is_file()) {
            return Err(io::Error::other("its lock is no file").into());
        }
        let lock = File::options().create(true).truncate(false).write(true).open(file)?;
        match fs4::FileExt::try_lock(&lock) {
            Ok(()) => Ok(WriteLock { folder: folder.to_owned(), _lock: lock }),
            Err(TryLockError::WouldBlock) => Err(NoLock::Taken),
            Err(TryLockError::Error(error)) => Err(error.into()),
        }
    }

    /// The same, waiting for at most so long while another program has the lock.
    pub(super) fn acquire_within(
        folder: &Path,
        name: &str,
        patience: Duration,
    ) -> Result<WriteLock, NoLock> {
        let asked = Instant::now();
        loop {
            match WriteLock::acquire(folder, name) {
                Err(NoLock::Taken) if asked.elapsed() < patience => {
                    thread::sleep(Duration::from_millis(5));
                }
                answered => return answered,
            }
        }
    }

    /// Makes `content` the content of the file of that name. It is written to a new file, which
    /// replaces the old one once it is safely on the disk. What a link leads to is replaced, and not
    /// the link; who may read the old file may read the new one.
    pub(super) fn replace_file(&self, name: &str, content: &str) -> io::Result<()> {
        let file = self.folder.join(name);
        let file = fs::canonicalize(&file).unwrap_or(file);
        let new = file.with_file_name(format!("{name}.new"));
        // What an end too early has left is in the way; whatever it is, nothing is written there.
        let _ = fs::remove_file(&new);
        write_over(&new, &file, content).inspect_err(|_| {
            let _ = fs::remove_file(&new);
        })?;
        sync_folder(file.parent().unwrap_or(&self.folder))
    }

    /// Writes a file that is not there yet; where it cannot be written whole, it is not there either.
    pub(super) fn write_new(&self, name: &str, content: &[u8]) -> io::Result<()> {
        let new = self.folder.join(name);
        let mut file = File::create_new(&new)?;
        let written = file.write_all(content).and_then(|()| file.sync_all());
        written.inspect_err(|_| {
            let _ = fs::remove_file(&new);
        })?;
        sync_folder(&self.folder)
    }
}

fn write_over(new: &Path, file: &Path, content: &str) -> io::Result<()> {
    let mut written = File::create_new(new)?;
    if let Ok(about) = fs::metadata(file) {
        written.set_permissions(about.permissions())?;
    }
    written.write_all(content.as_bytes())?;
    written.sync_all()?;
    drop(written);
    fs::rename(new, file)
}

/// The new name is on the disk only when the folder has been synced too.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

/// On other systems a folder cannot be opened as a file, and need not be synced.
#[cfg(not(unix))]
fn sync_folder(_: &Path) -> io::Result<()> {
    Ok(())
}
