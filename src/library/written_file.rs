//! Files that are written for other programs.

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

use super::staged_file::StagedFile;
use crate::words::in_plain_words;

/// Why a file was not written.
#[derive(Debug)]
pub enum FileNotWritten {
    /// There is one of that name.
    Exists(PathBuf),
    /// The system refuses.
    System(PathBuf, io::Error),
}

/// What becomes of a file that is there already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FileThere {
    /// It stays, and nothing is written.
    Kept,
    /// It is replaced.
    Replaced,
}

/// Writes a file whole, or not at all.
///
/// # Errors
///
/// Where there is a file of that name that is to be kept, and where the system refuses.
///
/// # Example
///
/// ```
/// use fretloom::library::{FileNotWritten, FileThere, write_file};
/// let file = std::env::temp_dir().join(format!("fretloom-written-{}", std::process::id()));
/// write_file(&file, b"one", FileThere::Kept).unwrap();
/// let again = write_file(&file, b"two", FileThere::Kept);
/// assert!(matches!(again, Err(FileNotWritten::Exists(_))));
/// write_file(&file, b"two", FileThere::Replaced).unwrap();
/// assert_eq!(std::fs::read(&file).unwrap(), b"two");
/// # std::fs::remove_file(&file).unwrap();
/// ```
pub fn write_file(file: &Path, content: &[u8], there: FileThere) -> Result<(), FileNotWritten> {
    let staged = StagedFile::write(file, content);
    let put = staged.and_then(|staged| match there {
        FileThere::Kept => staged.put_new(file),
        FileThere::Replaced => staged.put_over(file),
    });
    put.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => FileNotWritten::Exists(file.to_owned()),
        _ => FileNotWritten::System(file.to_owned(), error),
    })
}

impl fmt::Display for FileNotWritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FileNotWritten::Exists(file) => {
                write!(f, "{} is there already: expected a new name", file.display())
            }
            FileNotWritten::System(file, error) => {
                let why = in_plain_words(error);
                write!(f, "cannot write {}: {why}; expected another folder", file.display())
            }
        }
    }
}
