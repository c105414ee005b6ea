//! Why a chord symbol cannot be read.

use std::fmt;

use super::LONGEST;
use crate::NoteError;

/// Why a chord symbol could not be read, and where.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ChordError {
    symbol: String,
    at: usize,
    problem: ChordProblem,
}

/// What is wrong with a chord symbol.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum ChordProblem {
    /// It does not begin with a note name.
    Root(NoteError),
    /// `N.C.`: there is no chord to read.
    NoChord,
    /// The root carries two accidentals.
    DoubleAccidental,
    /// No word of any chord symbol begins here.
    Unknown,
    /// A number that chords do not use.
    Number,
    /// A second number that is neither bracketed nor altered.
    SecondNumber,
    /// A second quality, or one after the number.
    SecondQuality,
    /// A 5 after a quality: an altered fifth or a power chord?
    FifthAfterQuality,
    /// `no3` after a quality that names the third.
    Third,
    /// A fifth that contradicts the quality.
    Fifth,
    /// A flat or sharp that no number follows.
    SignWithoutNumber,
    /// An alteration that makes another chord tone.
    Alteration,
    /// `add` without a note to add.
    Added,
    /// `no` or `omit` without 3 or 5.
    Omitted,
    /// `alt` on anything but a dominant seventh.
    AltOfWhat,
    /// A bracket that is not closed.
    Unclosed,
    /// A closing bracket that nothing opened.
    Unopened,
    /// What follows the slash is no note.
    Bass(NoteError),
    /// The symbol is longer than any chord.
    TooLong,
}

impl ChordProblem {
    /// Is the mistake the piece just read, rather than what comes after it?
    pub(super) fn is_about_what_was_read(&self) -> bool {
        !matches!(
            self,
            ChordProblem::Added | ChordProblem::Omitted | ChordProblem::SignWithoutNumber
        )
    }
}

impl ChordError {
    pub(super) fn new(symbol: &str, at: usize, problem: ChordProblem) -> Self {
        ChordError { symbol: symbol.chars().take(LONGEST).collect(), at, problem }
    }

    /// Which character, counted from 1.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// What is wrong.
    #[must_use]
    pub fn problem(&self) -> &ChordProblem {
        &self.problem
    }

    /// What could stand there instead.
    #[must_use]
    pub fn expected(&self) -> &'static str {
        match &self.problem {
            ChordProblem::Root(error) => match error.problem() {
                crate::NoteProblem::LowerCase => "a capital root, A to G (a small b is a flat)",
                _ => error.expected(),
            },
            ChordProblem::NoChord => "a chord; N.C. asks for none",
            ChordProblem::DoubleAccidental => "a root with at most one accidental",
            ChordProblem::Unknown => {
                "a quality (m, maj, dim, +, sus), a number, an alteration such as b9, add, no, \
                 alt, or /bass"
            }
            ChordProblem::Number => "one of 2, 4, 5, 6, 7, 9, 11, 13 or 6/9",
            ChordProblem::SecondNumber => "an alteration, or the number in brackets as in C7(13)",
            ChordProblem::SecondQuality => "one quality, before the number",
            ChordProblem::FifthAfterQuality => "b5 or #5, or 5 right after the root",
            ChordProblem::Third => "either no3 or a quality with a third",
            ChordProblem::Fifth => "a fifth that agrees with the quality",
            ChordProblem::SignWithoutNumber => "a number after the flat or sharp, as in b9",
            ChordProblem::Alteration => "one of b5, #5, b9, #9, #11, b13",
            ChordProblem::Added => "a note to add: 2, 4, 6, 9, 11, 13 or an altered one",
            ChordProblem::Omitted => "3 or 5",
            ChordProblem::AltOfWhat => "alt on a dominant seventh, as in C7alt",
            ChordProblem::Unclosed => "a closing bracket",
            ChordProblem::Unopened => "no closing bracket, as none was opened",
            ChordProblem::Bass(error) => match error.problem() {
                crate::NoteProblem::Trailing => "nothing more after the bass note",
                _ => "a bass note, A to G",
            },
            ChordProblem::TooLong => "a symbol of at most 80 characters",
        }
    }
}

impl fmt::Display for ChordError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ChordError { symbol, at, .. } = self;
        write!(f, "cannot read the chord \"{symbol}\" at character {at}: expected ")?;
        f.write_str(self.expected())
    }
}

impl std::error::Error for ChordError {}
