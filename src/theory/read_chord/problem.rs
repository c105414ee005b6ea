//! What can be wrong with the words of a chord symbol.

/// What is wrong with a word of a chord symbol; the reader adds where.
#[derive(Clone, Copy)]
pub(super) enum ChordProblem {
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
    /// A closing bracket that nothing opened.
    Unopened,
}

impl ChordProblem {
    /// Is the mistake the word just read, rather than what comes after it?
    pub(super) fn is_about_what_was_read(self) -> bool {
        !matches!(
            self,
            ChordProblem::Added | ChordProblem::Omitted | ChordProblem::SignWithoutNumber
        )
    }

    /// What could stand there instead.
    pub(super) fn expected(self) -> &'static str {
        match self {
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
            ChordProblem::Omitted => "3, 5, or a 9, 11 or 13 that the number implies",
            ChordProblem::AltOfWhat => "alt on a dominant seventh, as in C7alt",
            ChordProblem::Unopened => "no closing bracket, as none was opened",
        }
    }
}
