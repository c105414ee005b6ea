//! What is wrong with bars, and where.

use std::fmt;

use crate::ReadError;

/// Something in bars that cannot be read, or does not fit together.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BarFault {
    /// Which of the texts that were read together it stands in, counted from 0.
    pub section: usize,
    /// The word that stands there; empty where nothing does.
    pub word: Box<str>,
    /// What was expected, and where in that text.
    pub error: ReadError,
}

/// A bar that cannot be read. It keeps its place in the form and its length.
///
/// ```
/// use fretloom_theory::{BarContent, BarSection, BarText, Meter};
/// let sections = [BarSection::unnamed("| Dm7 | G7 Cx7 | Cmaj7 |")];
/// let (text, faults) = BarText::read_marking(&sections, Meter::COMMON, None).unwrap();
/// assert_eq!(text.bars().len(), 3);
/// let BarContent::Unread(bar) = &text.bars()[1].content else { panic!() };
/// assert_eq!((bar.text(), bar.error().at()), ("G7 Cx7", 5));
/// assert_eq!((&*faults[0].word, faults[0].error.at()), ("Cx7", 13));
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct UnreadBar {
    text: Box<str>,
    error: ReadError,
}

/// The longest text of a bar that is quoted as a whole, in characters.
const QUOTED: usize = 80;

impl UnreadBar {
    /// A bar of these words, with a mistake in the one with this index, where it begins with the
    /// character `at` of that word.
    pub(super) fn of(words: &[String], wrong: usize, at: usize, error: &ReadError) -> UnreadBar {
        let text = words.join(" ");
        let before: usize = words.iter().take(wrong).map(|word| word.chars().count() + 1).sum();
        let expected = error.expected().to_owned();
        let placed = ReadError::at_character("bar", &text, before + at, expected);
        let placed = match error.hint() {
            Some(hint) => placed.with_hint(hint.to_owned()),
            None => placed,
        };
        let error = placed.quoting(&text, QUOTED);
        UnreadBar { text: text.into(), error }
    }

    /// What is written between its bar lines, marks before and after it apart.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What is wrong; its place counts in [`text`](Self::text).
    #[must_use]
    pub fn error(&self) -> &ReadError {
        &self.error
    }
}

impl fmt::Display for UnreadBar {
    /// As it is written.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl fmt::Display for BarFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.error.fmt(f)
    }
}

impl std::error::Error for BarFault {}
