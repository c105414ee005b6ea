//! What is wrong with a file, and where.

use std::borrow::Cow;
use std::fmt;

/// Where in a file something is wrong.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum At {
    /// The file as a whole.
    Whole,
    /// A place in text.
    Text {
        /// Counted from 1.
        line: usize,
        /// Counted in characters from 1.
        column: usize,
    },
    /// A place among bytes.
    Byte {
        /// How many bytes stand before it.
        offset: usize,
        /// The track it belongs to, counted from 1.
        track: Option<usize>,
    },
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            At::Whole => Ok(()),
            At::Text { line, column } => write!(f, "line {line}, column {column}: "),
            At::Byte { offset, track: None } => write!(f, "byte {offset}: "),
            At::Byte { offset, track: Some(track) } => write!(f, "byte {offset}, track {track}: "),
        }
    }
}

/// Why no score could be read from a file.
///
/// Prints as `line 3, column 14: found "x"; expected …`; who opened the file puts its name before.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ScoreFileError {
    /// The file of an archive that it is in.
    within: Option<String>,
    at: At,
    wrong: Cow<'static, str>,
    expected: Cow<'static, str>,
}

impl ScoreFileError {
    /// How much of what was found is shown, in characters.
    const SHOWN: usize = 40;

    pub(super) fn new(
        at: At,
        wrong: impl Into<Cow<'static, str>>,
        expected: impl Into<Cow<'static, str>>,
    ) -> ScoreFileError {
        ScoreFileError { within: None, at, wrong: wrong.into(), expected: expected.into() }
    }

    /// The same in a file of an archive.
    pub(super) fn within(self, name: &str) -> ScoreFileError {
        let name = name.chars().take(ScoreFileError::SHOWN).collect();
        ScoreFileError { within: Some(name), ..self }
    }

    pub(super) fn whole(
        wrong: impl Into<Cow<'static, str>>,
        expected: impl Into<Cow<'static, str>>,
    ) -> ScoreFileError {
        ScoreFileError::new(At::Whole, wrong, expected)
    }

    /// A text that stands where another was expected.
    pub(super) fn found(
        at: At,
        text: &str,
        expected: impl Into<Cow<'static, str>>,
    ) -> ScoreFileError {
        let shown: String = text.trim().chars().take(ScoreFileError::SHOWN).collect();
        ScoreFileError::new(at, format!("found \"{shown}\""), expected)
    }

    /// Where it is.
    #[must_use]
    pub fn at(&self) -> At {
        self.at
    }
}

impl fmt::Display for ScoreFileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(name) = &self.within {
            write!(f, "in its {name}: ")?;
        }
        write!(f, "{}{}; expected {}", self.at, self.wrong, self.expected)
    }
}

impl std::error::Error for ScoreFileError {}

/// What is said of a file that is longer than [`LONGEST_FILE`](super::LONGEST_FILE).
#[must_use]
pub fn too_long() -> ScoreFileError {
    ScoreFileError::whole("it is longer than 16 MiB", "a shorter file")
}
