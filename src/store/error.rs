//! Why state cannot be read or written.

use std::{fmt, io};

use super::write_lock::NoLock;
use crate::words::in_plain_words;

/// Why state could not be read or written.
#[derive(Debug)]
#[non_exhaustive]
pub enum StoreError {
    /// A newer fretloom wrote it; it is left alone.
    Newer {
        /// The format that was found.
        format: u64,
        /// The newest format that this fretloom reads.
        known: u64,
    },
    /// What is there cannot be read.
    Unreadable(String),
    /// Another fretloom is writing at this moment.
    Busy,
    /// The system refused.
    Io(io::Error),
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StoreError::Newer { format, known } => write!(
                f,
                "the session is of format {format}, expected {known}; it is left to the newer \
                 fretloom"
            ),
            StoreError::Unreadable(why) => {
                write!(f, "the session cannot be read, expected what fretloom wrote: {why}")
            }
            StoreError::Busy => f.write_str("another fretloom is writing the session"),
            StoreError::Io(error) => {
                write!(f, "the session is out of reach: {}", in_plain_words(error))
            }
        }
    }
}

impl std::error::Error for StoreError {}

impl From<io::Error> for StoreError {
    fn from(error: io::Error) -> Self {
        StoreError::Io(error)
    }
}

impl From<NoLock> for StoreError {
    fn from(why: NoLock) -> Self {
        match why {
            NoLock::Taken => StoreError::Busy,
            NoLock::Io(error) => StoreError::Io(error),
        }
    }
}
