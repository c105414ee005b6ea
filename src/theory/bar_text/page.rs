//! Where in a text something stands, and how that is told.

use std::borrow::Cow;

use super::fault::BarFault;
use crate::ReadError;

/// What the text should have been, in errors.
pub(super) const WHAT: &str = "bars";

/// The longest line that is quoted as a whole, in characters.
const QUOTED: usize = 80;

/// Where a word stands: its line, counted from 0 through all texts, and its characters there,
/// counted from 1.
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

/// Texts line by line.
pub(super) struct Page<'a> {
    lines: Vec<&'a str>,
    /// How many lines stand before each text.
    texts: Vec<usize>,
}

impl<'a> Page<'a> {
    pub(super) fn of(texts: impl IntoIterator<Item = &'a str>) -> Page<'a> {
        let mut page = Page { lines: Vec::new(), texts: Vec::new() };
        for text in texts {
            page.texts.push(page.lines.len());
            page.lines.extend(text.lines());
        }
        page
    }

    /// The lines of a text, each with the number by which places name it.
    pub(super) fn lines_of(&self, text: usize) -> impl Iterator<Item = (usize, &'a str)> {
        let (from, to) = self.range(text);
        self.lines.iter().copied().enumerate().take(to).skip(from)
    }

    /// The beginning of a text.
    pub(super) fn beginning_of(&self, text: usize) -> Place {
        Place { line: self.range(text).0, ..Place::default() }
    }

    /// The word that stands there.
    pub(super) fn word(&self, place: Place) -> String {
        self.line(place).chars().skip(place.character - 1).take(place.characters).collect()
    }

    /// Something else was expected here.
    pub(super) fn wrong(&self, place: Place, expected: impl Into<Cow<'static, str>>) -> BarFault {
        self.within(place, ReadError::at_character(WHAT, "", 1, expected))
    }

    /// A mistake inside the word that stands here.
    pub(super) fn within(&self, place: Place, error: ReadError) -> BarFault {
        let line = self.line(place);
        let word = self.word(place);
        let is_short = line.chars().nth(QUOTED).is_none();
        let quoted = if is_short { line } else { &word };
        let error = error.within(WHAT, line, place.character).quoting(quoted, QUOTED);
        let text = self.texts.partition_point(|before| *before <= place.line).saturating_sub(1);
        let (from, to) = self.range(text);
        let error = match to - from {
            0 | 1 => error,
            _ => error.on_line(place.line - from + 1),
        };
        BarFault { section: text, word: word.chars().take(QUOTED).collect(), error }
    }

    fn line(&self, place: Place) -> &'a str {
        self.lines.get(place.line).copied().unwrap_or_default()
    }

    /// Its first line, and the first after its last.
    fn range(&self, text: usize) -> (usize, usize) {
        let end = self.lines.len();
        let from = self.texts.get(text).copied().unwrap_or(end);
        (from, self.texts.get(text + 1).copied().unwrap_or(end).max(from))
    }
}
