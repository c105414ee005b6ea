//! Opening a player's files.

use std::io::Read;
use std::path::Path;
use std::{fs, io};

/// No data file needs more; a longer one is left unread.
const LONGEST_FILE: u64 = 64 * 1024;

/// The text of a file. A pipe in its place would never end, so only real files are opened.
pub(super) fn read_text(path: &Path) -> io::Result<String> {
    let about = fs::metadata(path)?;
    if !about.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    if about.len() > LONGEST_FILE {
        return Err(io::Error::other("it is longer than 64 KiB"));
    }
    let mut text = String::new();
    fs::File::open(path)?.take(LONGEST_FILE).read_to_string(&mut text)?;
    Ok(text)
}
