//! The scales that each function asks for, first choice first; all text is ASCII.

use crate::{Chord, Degree, Function, ScaleKind};

type Choice = (ScaleKind, &'static str);

const OFF_THE_FIFTH: &str = "does not fall a fifth: the #11 does not rub; melodic minor a fifth up";
const TO_MINOR: &[Choice] = &[
    (ScaleKind::ALTERED, "bound for minor: every tension altered; melodic minor a half step up"),
    (ScaleKind::PHRYGIAN_DOMINANT, "bound for minor: the V of harmonic minor"),
    (ScaleKind::MIXOLYDIAN_FLAT_6, "bound for minor, with a natural 9"),
    (ScaleKind::HALF_WHOLE_DIMINISHED, "altered ninths with the bright 13"),
];
const TO_MAJOR: &[Choice] = &[
    (ScaleKind::MIXOLYDIAN, "bound for major: the V of the key"),
    (ScaleKind::HALF_WHOLE_DIMINISHED, "bound for major: altered ninths with a natural 13"),
    (ScaleKind::ALTERED, "bound for major, with every tension altered"),
    (ScaleKind::LYDIAN_DOMINANT, "bound for major, with a #11"),
    (ScaleKind::WHOLE_TONE, "bound for major, with #11 and #5"),
];
const LYDIAN_DOMINANT: &[Choice] = &[
    (ScaleKind::LYDIAN_DOMINANT, OFF_THE_FIFTH),
    (ScaleKind::MIXOLYDIAN, "the plain dominant scale"),
];
const STATIC: &[Choice] = &[
    (ScaleKind::LYDIAN_DOMINANT, OFF_THE_FIFTH),
    (ScaleKind::MIXOLYDIAN, "the plain dominant scale"),
    (
        ScaleKind::MINOR_BLUES,
        "a reading: the blues over its own dominant, though it has no major third",
    ),
    (ScaleKind::MAJOR_BLUES, "a reading: the bright blues, though it has no b7"),
];
const TONIC_OF_BLUES: &[Choice] = &[
    (ScaleKind::MIXOLYDIAN, "the tonic of a blues"),
    (ScaleKind::MINOR_BLUES, "a reading: the blues over its own tonic"),
    (ScaleKind::MAJOR_BLUES, "a reading: the bright blues"),
    (ScaleKind::LYDIAN_DOMINANT, "the tonic of a blues with a #11"),
    (ScaleKind::BEBOP_DOMINANT, "both sevenths, eight notes to the bar"),
];
const TONIC_MINOR: &[Choice] = &[
    (ScaleKind::MELODIC_MINOR, "the tonic minor: major sixth and seventh"),
    (ScaleKind::DORIAN, "the tonic minor with a b7"),
    (ScaleKind::HARMONIC_MINOR, "the tonic minor with the b13 of the key"),
    (ScaleKind::AEOLIAN, "natural minor"),
];
const TONIC_MINOR_SEVENTH: &[Choice] = &[
    (ScaleKind::DORIAN, "a tonic minor with a b7"),
    (
        ScaleKind::MELODIC_MINOR,
        "a reading: the tonic minor with a major seventh in place of the b7",
    ),
    (ScaleKind::AEOLIAN, "natural minor"),
];
const CHAIN: &[Choice] = &[
    (ScaleKind::MIXOLYDIAN, "a dominant in a chain, the V of the next"),
    (ScaleKind::LYDIAN_DOMINANT, "a dominant in a chain, with a #11"),
    (ScaleKind::ALTERED, "every tension altered, leading into the next"),
];
const BACKDOOR: &[Choice] = &[
    (ScaleKind::LYDIAN_DOMINANT, "comes home from below: the #11 is the third of the key"),
    (ScaleKind::MIXOLYDIAN, "the plain dominant scale"),
];
const SECOND: &[Choice] = &[(ScaleKind::DORIAN, "the ii of a major key")];
const SECOND_BEFORE_MINOR: &[Choice] = &[
    (ScaleKind::LOCRIAN, "the b9 belongs to the minor key that follows"),
    (ScaleKind::LOCRIAN_NATURAL_2, "with a natural 9; melodic minor a minor third up"),
    (ScaleKind::LOCRIAN_NATURAL_6, "the ii of harmonic minor"),
];
const SECOND_WITHOUT_MINOR: &[Choice] = &[
    (ScaleKind::LOCRIAN_NATURAL_2, "the natural 9 does not rub; melodic minor a minor third up"),
    (ScaleKind::LOCRIAN, "with the b9 of the minor key"),
];
const HALF_DIMINISHED_IN_MAJOR: &[Choice] = &[
    (ScaleKind::LOCRIAN, "the notes of the major key"),
    (ScaleKind::LOCRIAN_NATURAL_2, "with a natural 9"),
];
const THIRD: &[Choice] = &[
    (ScaleKind::PHRYGIAN, "the iii of a major key"),
    (ScaleKind::AEOLIAN, "the iii with a natural 9"),
    (ScaleKind::DORIAN, "the iii lightened, with 9 and 13"),
];
const SIXTH: &[Choice] = &[
    (ScaleKind::AEOLIAN, "the vi of a major key"),
    (ScaleKind::DORIAN, "the vi lightened, with a natural 13"),
];
const MINOR_FOURTH: &[Choice] = &[
    (ScaleKind::MELODIC_MINOR, "the minor iv: major sixth and seventh"),
    (ScaleKind::DORIAN, "the minor iv with the notes of the minor key"),
];
const MINOR_FOURTH_SEVENTH: &[Choice] =
    &[(ScaleKind::DORIAN, "the minor iv with the notes of the minor key")];
const WHOLE_HALF: &[Choice] =
    &[(ScaleKind::WHOLE_HALF_DIMINISHED, "a whole step above every chord tone")];

impl Function {
    /// The scales that it asks for over `chord`, in order, with reasons. A minor seventh in the
    /// symbol settles what a minor triad leaves open.
    pub(super) fn scales(&self, chord: &Chord) -> &'static [Choice] {
        let seventh = chord.names(Degree::MINOR_SEVENTH);
        match self {
            Function::Dominant { home, .. } if home.is_minor() => TO_MINOR,
            Function::Dominant { .. } => TO_MAJOR,
            Function::Chain { .. } => CHAIN,
            Function::HalfStepAbove { .. } => LYDIAN_DOMINANT,
            Function::WholeStepBelow { .. } => BACKDOOR,
            Function::TonicOfBlues => TONIC_OF_BLUES,
            Function::Static => STATIC,
            Function::SecondOfMajor { .. } | Function::DegreeOf { degree: 2, .. } => SECOND,
            Function::SecondOfMinor { arrives: true, .. } => SECOND_BEFORE_MINOR,
            Function::SecondOfMinor { arrives: false, .. } => SECOND_WITHOUT_MINOR,
            Function::RaisedFourth { .. } | Function::LeadingTone { .. } => {
                HALF_DIMINISHED_IN_MAJOR
            }
            Function::TonicMinor if seventh => TONIC_MINOR_SEVENTH,
            Function::TonicMinor => TONIC_MINOR,
            Function::MinorFourth { .. } if seventh => MINOR_FOURTH_SEVENTH,
            Function::MinorFourth { .. } => MINOR_FOURTH,
            Function::DegreeOf { degree: 3, .. } => THIRD,
            Function::DegreeOf { degree: 6, .. } => SIXTH,
            Function::DegreeOf { .. } | Function::Alone => &[],
            Function::Passing { .. } | Function::CommonRoot { .. } => WHOLE_HALF,
        }
    }

    /// May the function ask for this scale although the symbol does not fit it?
    pub(super) fn reads_otherwise(&self, scale: &ScaleKind, chord: &Chord) -> bool {
        match self {
            Function::TonicMinor => {
                *scale == ScaleKind::MELODIC_MINOR && chord.names(Degree::MINOR_SEVENTH)
            }
            Function::Static | Function::TonicOfBlues => {
                [ScaleKind::MINOR_BLUES, ScaleKind::MAJOR_BLUES].contains(scale)
                    && chord.is_dominant()
            }
            _ => false,
        }
    }
}
