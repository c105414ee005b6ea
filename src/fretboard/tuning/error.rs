//! Why there is no such tuning.

use std::fmt;

use fretloom_theory::{NamedPitch, ReadError};

use crate::{Fret, StringNumber, StringSet};

/// Why there is no such tuning.
#[derive(Clone, PartialEq, Debug)]
#[non_exhaustive]
pub enum TuningError {
    /// It was typed, and cannot be read.
    Unreadable(ReadError),
    /// This many strings, not 3 to 12.
    StringCount(usize),
    /// This many frets, not 0 to 36.
    FretCount(u32),
    /// This many millimetres, not 100 to 1500.
    ScaleLength(f64),
    /// A string begins above the last fret.
    StartFret {
        /// Which string.
        string: StringNumber,
        /// Where it should begin.
        start: Fret,
        /// The last fret of the neck.
        last: Fret,
    },
    /// Not one list of further strings for each string.
    CourseCount {
        /// How many lists.
        lists: usize,
        /// How many strings.
        strings: usize,
    },
    /// A course of too many strings.
    WideCourse {
        /// Which string.
        string: StringNumber,
        /// Of how many strings, the principal among them.
        count: usize,
    },
    /// A capo above the last fret.
    CapoFret {
        /// Where it should lie.
        fret: Fret,
        /// The last fret of the neck.
        last: Fret,
    },
    /// A capo on strings that are not there.
    CapoStrings {
        /// The strings it should hold.
        strings: StringSet,
        /// How many strings there are.
        count: usize,
    },
    /// A string would sound above MIDI 127 at the last fret.
    TooHigh {
        /// Which string.
        string: StringNumber,
        /// What it is tuned to.
        note: NamedPitch,
        /// The last fret of the neck.
        last: Fret,
    },
}

impl TuningError {
    /// What was expected instead of what was found.
    #[must_use]
    pub fn expected(&self) -> String {
        match self {
            TuningError::Unreadable(error) => error.advice(),
            TuningError::StringCount(count) => format!("3 to 12 strings, not {count}"),
            TuningError::FretCount(count) => format!("0 to 36 frets, not {count}"),
            TuningError::ScaleLength(mm) => {
                format!("a scale length of 100 to 1500 mm, not {mm}")
            }
            TuningError::StartFret { string, start, last } => format!(
                "string {string} to start at fret {last}, the last one, at most, not at {start}"
            ),
            TuningError::CourseCount { lists, strings } => {
                format!("a list of further notes for each of {strings} strings, not {lists} lists")
            }
            TuningError::WideCourse { string, count } => {
                format!("a course of 3 strings at most on string {string}, not of {count}")
            }
            TuningError::CapoFret { fret, last } => {
                format!("a capo at fret {last}, the last one, at most, not at {fret}")
            }
            TuningError::CapoStrings { strings, count } => {
                format!("a capo on strings from 1 to {count}, not on {strings}")
            }
            TuningError::TooHigh { string, note, last } => {
                format!("string {string} lower than {note}, to sound at most G9 at fret {last}")
            }
        }
    }
}

impl From<ReadError> for TuningError {
    fn from(error: ReadError) -> TuningError {
        TuningError::Unreadable(error)
    }
}

impl fmt::Display for TuningError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TuningError::Unreadable(error) => error.fmt(f),
            _ => write!(f, "cannot use this tuning: expected {}", self.expected()),
        }
    }
}

impl std::error::Error for TuningError {}
