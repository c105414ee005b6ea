//! Why nothing is heard.

use std::fmt;

/// Why nothing is heard, in one line for the player.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum SoundError {
    /// A file of sound cannot be written; why.
    Writing(String),
}

impl fmt::Display for SoundError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SoundError::Writing(why) => write!(f, "cannot write the sound: {why}"),
        }
    }
}

impl std::error::Error for SoundError {}
