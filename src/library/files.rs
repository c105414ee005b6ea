//! Opens the player's files.

use std::io::Read;
use std::path::{Path, PathBuf};
use std::{fs, io};

use super::Problem;
use crate::words::in_plain_words;

/// In bytes. No data file needs more; a longer one is not read.
const LONGEST_FILE: u64 = 64 * 1024;

/// The text of a file. Only regular files are opened, since reading a pipe might never end.
pub(crate) fn read_text(path: &Path) -> io::Result<String> {
    let bytes = read_bytes(path, LONGEST_FILE)?;
    String::from_utf8(bytes).map_err(|_| io::ErrorKind::InvalidData.into())
}

/// The bytes of a file that is at most so long, in the same way.
pub(crate) fn read_bytes(path: &Path, longest: u64) -> io::Result<Vec<u8>> {
    let about = fs::metadata(path)?;
    if !about.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    if about.len() > longest {
        return Err(io::Error::other(format!("it is longer than {}", in_words(longest))));
    }
    let mut bytes = Vec::with_capacity(usize::try_from(about.len()).unwrap_or_default());
    fs::File::open(path)?.take(longest).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn in_words(bytes: u64) -> String {
    const MEBIBYTE: u64 = 1024 * 1024;
    if bytes >= MEBIBYTE {
        format!("{} MiB", bytes / MEBIBYTE)
    } else {
        format!("{} KiB", bytes / 1024)
    }
}

/// The bytes of a file, which may be so long at most. Only regular files are opened.
///
/// # Errors
///
/// Where the system refuses, and where the file is longer.
pub fn bytes_of_file(path: &Path, longest: usize) -> io::Result<Vec<u8>> {
    let about = fs::metadata(path)?;
    let longest = u64::try_from(longest).unwrap_or(u64::MAX);
    if !about.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    if about.len() > longest {
        return Err(io::Error::other("it is too long"));
    }
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(longest).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The text of a file; `None` where there is no such file.
///
/// # Errors
///
/// Where the file is there and cannot be read.
pub(crate) fn text_if_there(path: &Path) -> Result<Option<String>, Problem> {
    match read_text(path) {
        Ok(text) => Ok(Some(text)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(unreadable(path, "a file", &error)),
    }
}

/// The problem of a file or folder that cannot be read.
pub(crate) fn unreadable(path: &Path, what: &str, error: &io::Error) -> Problem {
    let expected = format!("{what} that can be read ({})", in_plain_words(error));
    Problem::of_file(&path.display().to_string(), expected)
}

/// The TOML files of a folder, by name; none where there is no such folder.
pub(crate) fn toml_files(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries?,
    };
    let mut files = Vec::new();
    for entry in entries {
        let path = entry?.path();
        if path.extension().is_some_and(|extension| extension == "toml") {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}
