//! Reading the files that are named on the command line.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use crate::answer::Refusal;
use crate::score_file::{self, LONGEST_FILE};
use crate::words::in_plain_words;

/// A book of a thousand tunes has fewer chords than this holds. What is longer is something else,
/// or has no end.
const LONGEST_LIST: usize = 1024 * 1024;

/// The text of a list: of a file, or with `-` of standard input.
pub(super) fn list(file: &Path) -> Result<String, Refusal> {
    let read = if file == Path::new("-") {
        read_list(io::stdin().lock())
    } else {
        File::open(file).and_then(read_list)
    };
    read.map_err(|error| Refusal::File {
        name: file.display().to_string(),
        reason: in_plain_words(&error),
    })
}

/// All the text that there is, unless it is too long; no more than that is ever read.
fn read_list(from: impl Read) -> io::Result<String> {
    let mut bytes = Vec::new();
    from.take(LONGEST_LIST as u64 + 1).read_to_end(&mut bytes)?;
    if bytes.len() > LONGEST_LIST {
        return Err(io::Error::other("it is longer than 1 MiB"));
    }
    // Some editors begin a file with the mark of its byte order, or write UTF-16.
    let text = score_file::text(&bytes).map_err(|_| io::ErrorKind::InvalidData)?;
    Ok(text.into_owned())
}

/// The bytes of a file, or with `-` of standard input: no more than the longest file has, and one, which
/// tells that it is longer.
pub(super) fn bytes(file: &Path) -> Result<Vec<u8>, Refusal> {
    let read = if file == Path::new("-") {
        read_bytes(io::stdin().lock())
    } else {
        File::open(file).and_then(read_bytes)
    };
    read.map_err(|error| Refusal::LineFile {
        name: file.display().to_string(),
        reason: in_plain_words(&error),
    })
}

fn read_bytes(from: impl Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}
