//! Why the loop ended before the app asked for it.

use std::{error, fmt, io};

use crate::tui::terminal::TerminalError;
use crate::words::in_plain_words;

/// Why the app could not run, or could not go on.
#[derive(Debug)]
#[non_exhaustive]
pub enum RunError {
    /// There is no terminal, or it refuses.
    Terminal(TerminalError),
    /// No more keys can be read.
    Input(io::Error),
    /// The system gives the program no other thread.
    Thread(io::Error),
}

impl fmt::Display for RunError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RunError::Terminal(error) => error.fmt(f),
            RunError::Thread(error) => {
                write!(f, "the system gives the program no thread: {}", in_plain_words(error))
            }
            RunError::Input(error) => {
                write!(f, "the keyboard cannot be read: {}", in_plain_words(error))
            }
        }
    }
}

impl error::Error for RunError {}

impl From<TerminalError> for RunError {
    fn from(error: TerminalError) -> Self {
        RunError::Terminal(error)
    }
}
