//! Why keepers cannot be read or changed.

use std::path::PathBuf;
use std::{fmt, io};

use super::keeper::KeeperId;
use crate::words::in_plain_words;

/// Why keepers could not be read or changed. Nothing has changed then.
#[derive(Debug)]
#[non_exhaustive]
pub enum KeepersError {
    /// A newer fretloom wrote the file; it is left alone.
    Newer {
        /// The format that was found.
        format: u32,
        /// The newest format that this fretloom writes.
        known: u32,
    },
    /// Another fretloom has been writing for all the time that one waits.
    Busy,
    /// The file would be longer than is ever read.
    TooLong,
    /// All numbers have been given.
    NoNumberLeft,
    /// What stands in the entry cannot be changed without losing something.
    NotUnderstood {
        /// The keeper.
        id: KeeperId,
    },
    /// The system refused.
    Io {
        /// The file.
        file: PathBuf,
        /// What it said.
        error: io::Error,
    },
}

impl fmt::Display for KeepersError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            KeepersError::Newer { format, known } => write!(
                f,
                "the keepers are of format {format}, expected {known}; they are left to the newer \
                 fretloom"
            ),
            KeepersError::Busy => f.write_str(
                "another fretloom is writing the keepers, expected it to be done in 2 seconds; try \
                 again",
            ),
            KeepersError::TooLong => f.write_str(
                "there is no room for that among the keepers: expected a file of at most 32 MiB",
            ),
            KeepersError::NoNumberLeft => f.write_str(
                "every number of a keeper has been given: expected a `next_id` below 4294967295",
            ),
            KeepersError::NotUnderstood { id } => write!(
                f,
                "keeper {id} holds something there that is not understood, expected what fretloom \
                 wrote; it is left as it is"
            ),
            KeepersError::Io { file, error } => write!(
                f,
                "cannot keep anything in {}: {}; expected a file that can be read and replaced",
                file.display(),
                in_plain_words(error)
            ),
        }
    }
}

impl std::error::Error for KeepersError {}
