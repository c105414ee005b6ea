//! What a chord symbol leaves open.

use std::fmt;

use crate::Degree;

/// What a reader of chord symbols took for granted, so that it can be said.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Assumption {
    /// `Δ`, `^` or `j` without a number.
    TriangleIsMajorSeventh,
    /// `°` or `o` without a 7.
    CircleIsTriad,
    /// `ø` without a 7.
    SlashedCircleHasSeventh,
    /// `alt` names a sound, not each note of it.
    Alt,
    /// An 11 chord without `m` or `maj`.
    ElevenIsSus,
    /// A 13 chord without the 11.
    ThirteenWithoutEleven,
    /// `sus` without a number.
    SusIsFour,
    /// `sus` with a tension but without a 7.
    SusTensionHasSeventh,
    /// `m…sus`: nothing is left of the minor third.
    SusReplacesThird,
    /// A third beside a suspension.
    SusWithThird,
    /// `dom` without a number.
    DominantHasSeventh,
    /// A number after a slash, with no seventh before it.
    SlashAdds,
    /// A small letter for root or bass.
    SmallLetter,
    /// A number in brackets, with no seventh before it.
    BracketsAdd,
    /// `maj` after the number.
    MajorAfterNumber,
    /// Numbers without anything between them.
    NumbersInRow,
    /// A lone 2.
    TwoIsAddedNine,
    /// A lone 4.
    FourIsSus,
    /// `+` or `-` before a number inside a symbol.
    SignBeforeNumber,
    /// A sign after a bracketed number.
    SignAfterNumber,
    /// A sharp 7 on a minor chord.
    SharpSevenIsMajor,
    /// A flat right after C or F, before a number.
    FlatBelongsToRoot,
    /// One sound was named twice; the second name was dropped.
    SameNote {
        /// The name that stays.
        kept: Degree,
        /// The name that goes.
        dropped: Degree,
    },
}

impl fmt::Display for Assumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let signs = |text: &str| crate::text::with_signs(text);
        let text = match self {
            Assumption::TriangleIsMajorSeventh => "the triangle alone is read as maj7",
            Assumption::CircleIsTriad => "° without a 7 is read as the diminished triad",
            Assumption::SlashedCircleHasSeventh => "ø is read as m7b5, its seventh included",
            Assumption::Alt => "alt is read as b9 #9 b5 #5 without natural 5 or 9",
            Assumption::ElevenIsSus => "11 is read as 9sus4, without the third",
            Assumption::ThirteenWithoutEleven => "13 is read without the 11",
            Assumption::SusIsFour => "sus is read as sus4",
            Assumption::SusTensionHasSeventh => "sus with a tension is read as a 7sus4 chord",
            Assumption::SusReplacesThird => "sus replaces the third",
            Assumption::SusWithThird => "a sus chord with its third is read as an added note",
            Assumption::DominantHasSeventh => "dom is read as a dominant seventh",
            Assumption::SlashAdds => "a number after a slash is read as an added note",
            Assumption::SmallLetter => "the first small letter is read as the note",
            Assumption::BracketsAdd => "a number in brackets without a 7 is read as an added note",
            Assumption::MajorAfterNumber => "the seventh is read as major",
            Assumption::NumbersInRow => "numbers in a row are read as tensions one after another",
            Assumption::TwoIsAddedNine => "2 is read as an added 9",
            Assumption::FourIsSus => "4 is read as sus4",
            Assumption::SignBeforeNumber => "+ and - before a number are read as sharp and flat",
            Assumption::SignAfterNumber => "a sign after a number in brackets is read as its own",
            Assumption::SharpSevenIsMajor => "a #7 on a minor chord is read as its major seventh",
            Assumption::FlatBelongsToRoot => {
                "the flat belongs to the root; write C(b9) for an altered note"
            }
            Assumption::SameNote { kept, dropped } => {
                write!(f, "the ")?;
                dropped.fmt(f)?;
                write!(f, " is the ")?;
                kept.fmt(f)?;
                return write!(f, " that is named already");
            }
        };
        if f.alternate() { f.write_str(text) } else { f.write_str(&signs(text)) }
    }
}
