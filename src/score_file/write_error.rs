//! Why a score cannot be written.

use std::fmt;

use fretloom_theory::{NamedPitch, Tempo};

use super::limits::MOST_BARS;

/// Why a score cannot be written to a file of some kind.
#[derive(Clone, Copy, PartialEq, Debug)]
#[non_exhaustive]
pub enum ScoreWriteError {
    /// It has more bars than [`MOST_BARS`], or is longer than can be counted.
    TooLong,
    /// A tempo that the file has no number for.
    Tempo(Tempo),
    /// A note below C0, that MusicXML has no number for.
    TooLow(NamedPitch),
    /// Notes so short, or at such moments, that no one grid holds them all.
    TooFine,
}

impl fmt::Display for ScoreWriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ScoreWriteError::TooLong => {
                write!(f, "it is too long: expected at most {MOST_BARS} bars")
            }
            ScoreWriteError::Tempo(tempo) => write!(
                f,
                "a tempo of {tempo} has no place in a MIDI file: expected 4 to 60000000 quarter \
                 notes a minute"
            ),
            ScoreWriteError::TooLow(pitch) => {
                write!(f, "{pitch:#} is too low for MusicXML: expected notes from C0 up")
            }
            ScoreWriteError::TooFine => f.write_str(
                "its notes are divided too finely: expected note values and tuplets that have a \
                 common unit",
            ),
        }
    }
}

impl std::error::Error for ScoreWriteError {}
