//! What the readers of this crate say about text that they cannot read.

use std::fmt;

/// Why a text could not be read, and where.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::StringSet;
/// let error = "4-3-x".parse::<StringSet>().unwrap_err();
/// assert_eq!(
///     error.to_string(),
///     "cannot read the string set \"4-3-x\" at character 5: expected a string number, 1 to 12"
/// );
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadError {
    what: &'static str,
    text: String,
    at: usize,
    expected: &'static str,
}

impl ReadError {
    pub(crate) fn new(what: &'static str, text: &str, at: usize, expected: &'static str) -> Self {
        ReadError { what, text: text.chars().take(40).collect(), at, expected }
    }

    /// Which character, counted from 1.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// What could stand there instead.
    #[must_use]
    pub fn expected(&self) -> &'static str {
        self.expected
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "cannot read the {} \"{}\" at character {}: expected {}",
            self.what, self.text, self.at, self.expected
        )
    }
}

impl std::error::Error for ReadError {}

/// The parts of `4-3-2`, each with the character it begins at, counted from 1. Spaces around a
/// part belong to nobody.
pub(crate) fn hyphenated(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut next = 1;
    text.split('-').map(move |part| {
        let blanks = part.chars().take_while(|c| c.is_whitespace()).count();
        let at = next + blanks;
        next += part.chars().count() + 1;
        (at, part.trim())
    })
}

/// The number written at character `at`; else the character that is at fault.
pub(crate) fn number((at, part): (usize, &str)) -> Result<u8, usize> {
    if let Some(before) = part.chars().position(|c| !c.is_ascii_digit()) {
        return Err(at + before);
    }
    part.parse().map_err(|_| at)
}
