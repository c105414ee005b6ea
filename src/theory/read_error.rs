//! Why a text could not be read: one error for every reader, here and in the crates above.

use std::borrow::Cow;
use std::fmt;

/// Why a text could not be read, and where.
///
/// Every error of a reader says the same five things: what the text should have been, the text,
/// the character where reading stopped, what was expected there, and a hint where one helps.
/// Readers of other crates make it too, with [`whole`](Self::whole) and
/// [`at_character`](Self::at_character).
///
/// # Example
///
/// ```
/// use fretloom_theory::{Chord, ReadError};
/// let error: ReadError = "C7(b9".parse::<Chord>().unwrap_err();
/// assert_eq!((error.at(), error.expected()), (6, "a closing bracket"));
/// assert_eq!(
///     error.to_string(),
///     "cannot read the chord \"C7(b9\" at character 6: expected a closing bracket"
/// );
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadError(Box<Said>);

/// What an error says; kept apart so that results stay small.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Said {
    what: &'static str,
    text: String,
    /// Which line of a longer text `text` is, counted from 1; `None` where there is one line.
    line: Option<usize>,
    /// `None` where the text is wrong as a whole.
    at: Option<usize>,
    expected: Cow<'static, str>,
    hint: Option<Cow<'static, str>>,
}

impl ReadError {
    /// How much of a text is quoted, in characters.
    const QUOTED: usize = 40;

    /// A text that is wrong as a whole. `what` is what it should have been, as in `chord`;
    /// `expected` completes the sentence “expected …”.
    ///
    /// ```
    /// use fretloom_theory::ReadError;
    /// let error = ReadError::whole("width", "wide", "even or true").with_hint("even is usual");
    /// assert_eq!(
    ///     error.to_string(),
    ///     "cannot read the width \"wide\": expected even or true; even is usual"
    /// );
    /// ```
    #[must_use]
    pub fn whole(
        what: &'static str,
        text: &str,
        expected: impl Into<Cow<'static, str>>,
    ) -> ReadError {
        let text = text.chars().take(ReadError::QUOTED).collect();
        let (line, at, hint, expected) = (None, None, None, expected.into());
        ReadError(Box::new(Said { what, text, line, at, expected, hint }))
    }

    /// A text that is wrong from character `at` on, counted from 1.
    #[must_use]
    pub fn at_character(
        what: &'static str,
        text: &str,
        at: usize,
        expected: impl Into<Cow<'static, str>>,
    ) -> ReadError {
        let mut error = ReadError::whole(what, text, expected);
        error.0.at = Some(at);
        error
    }

    /// The same mistake with a hint: what the writer may have meant.
    #[must_use]
    pub fn with_hint(mut self, hint: impl Into<Cow<'static, str>>) -> ReadError {
        self.0.hint = Some(hint.into());
        self
    }

    /// The same mistake told of a longer text, in which the text that was read begins at character
    /// `start`.
    ///
    /// ```
    /// use fretloom_theory::NoteName;
    /// let error = "Dx".parse::<NoteName>().unwrap_err().within("scale", "C Dx E", 3);
    /// assert_eq!(
    ///     error.to_string(),
    ///     "cannot read the scale \"C Dx E\" at character 4: expected nothing more after the note"
    /// );
    /// ```
    #[must_use]
    pub fn within(self, what: &'static str, text: &str, start: usize) -> ReadError {
        let at = start + self.at() - 1;
        let mut outer = ReadError::at_character(what, text, at, self.0.expected);
        outer.0.hint = self.0.hint;
        outer
    }

    /// The same mistake, where the text is one line of several, counted from 1.
    ///
    /// ```
    /// use fretloom_theory::NoteName;
    /// let error = "H".parse::<NoteName>().unwrap_err().on_line(3);
    /// assert!(error.to_string().starts_with("cannot read the note \"H\" at line 3, character 1: "));
    /// ```
    #[must_use]
    pub fn on_line(mut self, line: usize) -> ReadError {
        self.0.line = Some(line);
        self
    }

    /// The same mistake with more of the text than is quoted as a rule.
    pub(crate) fn quoting(mut self, text: &str, characters: usize) -> ReadError {
        self.0.text = text.chars().take(characters).collect();
        self
    }

    /// What the text should have been, as in `chord`.
    #[must_use]
    pub fn what(&self) -> &'static str {
        self.0.what
    }

    /// The text as given, cut where it is long.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.0.text
    }

    /// Which line of a longer text it is, counted from 1; `None` where there is one line.
    #[must_use]
    pub fn line(&self) -> Option<usize> {
        self.0.line
    }

    /// The character where reading stopped, counted from 1; 1 where the text is wrong as a whole.
    #[must_use]
    pub fn at(&self) -> usize {
        self.0.at.unwrap_or(1)
    }

    /// What could stand there instead.
    #[must_use]
    pub fn expected(&self) -> &str {
        &self.0.expected
    }

    /// What the writer may have meant, or where to look.
    #[must_use]
    pub fn hint(&self) -> Option<&str> {
        self.0.hint.as_deref()
    }

    /// What was expected, and the hint after it: for places that say the rest otherwise.
    #[must_use]
    pub fn advice(&self) -> String {
        match &self.0.hint {
            Some(hint) => format!("{}; {hint}", self.0.expected),
            None => self.0.expected.to_string(),
        }
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cannot read the {} \"{}\"", self.what(), self.text())?;
        match (self.0.line, self.0.at) {
            (Some(line), Some(at)) => write!(f, " at line {line}, character {at}")?,
            (Some(line), None) => write!(f, " at line {line}")?,
            (None, Some(at)) => write!(f, " at character {at}")?,
            (None, None) => {}
        }
        write!(f, ": expected {}", self.advice())
    }
}

impl std::error::Error for ReadError {}
