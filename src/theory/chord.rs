//! Chords: exactly the notes that a chord symbol names.
//!
//! A chord is read from a symbol (`chord/read.rs`) and prints in one house style
//! (`chord/print.rs`); reading the print gives the same chord. It holds no voicing and no scale.

mod draft;
mod print;
mod problem;
mod read;
mod word;

use std::fmt;

pub use read::ReadChord;

use crate::{Degree, Degrees, NoteName, PitchClass, PitchClassSet};

/// A root, the degrees that the symbol names over it, and a bass where a slash asks for one.
///
/// # Example
///
/// ```
/// use fretloom_theory::Chord;
/// let chord: Chord = "GΔ7(#11)".parse().unwrap();
/// assert_eq!(chord.to_string(), "Gmaj7♯11");
/// assert_eq!(format!("{chord:#}"), "Gmaj7#11");
/// let tones: Vec<String> = chord.tones().map(|note| note.to_string()).collect();
/// assert_eq!(tones.join(" "), "G B D F♯ C♯");
/// assert!("Gmaj7x".parse::<Chord>().is_err());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chord {
    root: NoteName,
    bass: Option<NoteName>,
    degrees: Degrees,
    /// Was it written `alt`, which names a sound rather than each alteration?
    alt: bool,
}

/// The order in which a chord's degrees are listed; every degree that a symbol can name.
const ORDER: Degrees = Degrees::table("1 2 b3 3 4 b5 5 #5 6 bb7 b7 7");
/// The longest symbol that is looked at, in characters.
const LONGEST: usize = 80;
const TENSIONS: Degrees = Degrees::table("b9 9 #9 11 #11 b13 13");

impl Chord {
    /// The chord that stands over `root` as this one, which has no bass, stands over its own.
    pub(crate) fn moved_to(&self, root: NoteName) -> Chord {
        Chord { root, bass: None, ..self.clone() }
    }

    /// Its root.
    #[must_use]
    pub fn root(&self) -> NoteName {
        self.root
    }

    /// The note after the slash, where there is one.
    #[must_use]
    pub fn bass(&self) -> Option<NoteName> {
        self.bass
    }

    /// What the symbol names, the bass apart: root, third or suspension, fifth, sixth or seventh,
    /// then tensions.
    #[must_use]
    pub fn degrees(&self) -> &[Degree] {
        &self.degrees
    }

    /// Was it written `alt`?
    #[must_use]
    pub fn is_alt(&self) -> bool {
        self.alt
    }

    /// The names of the notes that the symbol names, as it names them, in the order of
    /// [`degrees`](Self::degrees).
    pub fn tones(&self) -> impl Iterator<Item = NoteName> {
        self.degrees.iter().map(|degree| self.tone(*degree))
    }

    /// Its notes as a set, the bass apart.
    #[must_use]
    pub fn set(&self) -> PitchClassSet {
        self.degrees.iter().map(|degree| degree.over(self.root.pitch_class())).collect()
    }

    /// The degree that the symbol itself gives to a note; `None` where it does not name it.
    #[must_use]
    pub fn degree_of(&self, class: PitchClass) -> Option<Degree> {
        let semitones = self.root.pitch_class().semitones_up_to(class);
        self.degrees.iter().copied().find(|degree| degree.semitones() == semitones)
    }

    /// The name that the symbol itself gives to a note: as a chord tone, or as the bass.
    #[must_use]
    pub fn name_of(&self, class: PitchClass) -> Option<NoteName> {
        let tone = self.degree_of(class).map(|degree| self.tone(degree));
        tone.or_else(|| self.bass.filter(|bass| bass.pitch_class() == class))
    }

    /// Does the symbol name this degree, written like this? For tables: the degree is ASCII text.
    pub(crate) fn names(&self, degree: &str) -> bool {
        Degree::from_ascii(degree.as_bytes(), 0, degree.len())
            .is_some_and(|degree| self.degrees.contains(&degree))
    }

    /// Does it hold a major third and a minor seventh?
    #[must_use]
    pub fn is_dominant(&self) -> bool {
        self.names("3") && self.names("b7")
    }

    /// Is it minor: a minor third, and no flat fifth that would make it diminished?
    #[must_use]
    pub fn is_minor(&self) -> bool {
        self.names("b3") && !self.names("b5")
    }

    /// Is it half-diminished: minor third, flat fifth and minor seventh?
    #[must_use]
    pub fn is_half_diminished(&self) -> bool {
        self.names("b3") && self.names("b5") && self.names("b7")
    }

    /// Is its third replaced by a fourth or a second?
    #[must_use]
    pub fn is_sus(&self) -> bool {
        self.names("4") || self.names("2")
    }

    /// A chord tone's name: on its letter, or enharmonic where that would need three accidentals.
    fn tone(&self, degree: Degree) -> NoteName {
        let on_letter = self.root.up(degree.interval());
        let plain = || NoteName::everyday(degree.over(self.root.pitch_class())).next();
        on_letter.or_else(plain).unwrap_or(self.root)
    }
}

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
