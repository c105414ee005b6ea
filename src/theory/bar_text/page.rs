//! Where in a text something stands, and how that is told.

use std::borrow::Cow;

use crate::ReadError;

/// What the text should have been, in errors.
pub(super) const WHAT: &str = "bars";

/// The longest line that is quoted as a whole, in characters.
const QUOTED: usize = 80;

/// Where a word stands: its line, counted from 0, and its characters there, counted from 1.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Place {
    pub(super) line: usize,
    pub(super) character: usize,
    pub(super) characters: usize,
}

impl Default for Place {
    /// The beginning of the text.
    fn default() -> Place {
        Place { line: 0, character: 1, characters: 0 }
    }
}

/// A text line by line, for errors.
pub(super) struct Page<'a> {
    lines: Vec<&'a str>,
}

impl<'a> Page<'a> {
    pub(super) fn of(text: &'a str) -> Page<'a> {
        Page { lines: text.lines().collect() }
    }

    pub(super) fn lines(&self) -> &[&'a str] {
        &self.lines
    }

    /// Something else was expected here.
    pub(super) fn wrong(&self, place: Place, expected: impl Into<Cow<'static, str>>) -> ReadError {
        self.within(place, ReadError::at_character(WHAT, "", 1, expected))
    }

    /// A mistake inside the word that stands here.
    pub(super) fn within(&self, place: Place, error: ReadError) -> ReadError {
        let line = self.lines.get(place.line).copied().unwrap_or_default();
        let is_short = line.chars().nth(QUOTED).is_none();
        let quoted: Cow<'_, str> = match is_short {
            true => line.into(),
            false => line.chars().skip(place.character - 1).take(place.characters).collect(),
        };
        let error = error.within(WHAT, line, place.character).quoting(&quoted, QUOTED);
        match self.lines.len() {
            0 | 1 => error,
            _ => error.on_line(place.line + 1),
        }
    }
}
