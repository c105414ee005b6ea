//! The scales that each function asks for, first choice first; all text is ASCII.

use super::Function;
use crate::Chord;

type Choice = (&'static str, &'static str);

const TO_MINOR: &[Choice] = &[
    ("altered", "bound for minor: every tension altered; melodic minor a half step up"),
    ("Phrygian dominant", "bound for minor: the V of harmonic minor"),
    ("Mixolydian b6", "bound for minor, with a natural 9"),
    ("half-whole diminished", "altered ninths with the bright 13"),
];
const TO_MAJOR: &[Choice] = &[
    ("Mixolydian", "bound for major: the V of the key"),
    ("half-whole diminished", "bound for major: altered ninths with a natural 13"),
    ("altered", "bound for major, with every tension altered"),
    ("Lydian dominant", "bound for major, with a #11"),
    ("whole tone", "bound for major, with #11 and #5"),
];
const LYDIAN_DOMINANT: &[Choice] = &[
    ("Lydian dominant", "does not fall a fifth: the #11 does not rub; melodic minor a fifth up"),
    ("Mixolydian", "the plain dominant scale"),
];
const STATIC: &[Choice] = &[
    LYDIAN_DOMINANT[0],
    LYDIAN_DOMINANT[1],
    ("minor blues", "a reading: the blues over its own dominant, though it has no major third"),
    ("major blues", "a reading: the bright blues, though it has no b7"),
];
const TONIC_OF_BLUES: &[Choice] = &[
    ("Mixolydian", "the tonic of a blues"),
    ("minor blues", "a reading: the blues over its own tonic"),
    ("major blues", "a reading: the bright blues"),
    ("Lydian dominant", "the tonic of a blues with a #11"),
    ("bebop dominant", "both sevenths, eight notes to the bar"),
];
const TONIC_MINOR: &[Choice] = &[
    ("melodic minor", "the tonic minor: major sixth and seventh"),
    ("Dorian", "the tonic minor with a b7"),
    ("harmonic minor", "the tonic minor with the b13 of the key"),
    ("Aeolian", "natural minor"),
];
const TONIC_MINOR_SEVENTH: &[Choice] = &[
    ("Dorian", "a tonic minor with a b7"),
    ("melodic minor", "a reading: the tonic minor with a major seventh in place of the b7"),
    ("Aeolian", "natural minor"),
];
const CHAIN: &[Choice] = &[
    ("Mixolydian", "a dominant in a chain, the V of the next"),
    ("Lydian dominant", "a dominant in a chain, with a #11"),
    ("altered", "every tension altered, leading into the next"),
];
const BACKDOOR: &[Choice] = &[
    ("Lydian dominant", "comes home from below: the #11 is the third of the key"),
    ("Mixolydian", "the plain dominant scale"),
];
const SECOND: &[Choice] = &[("Dorian", "the ii of a major key")];
const SECOND_BEFORE_MINOR: &[Choice] = &[
    ("Locrian", "the b9 belongs to the minor key that follows"),
    ("Locrian natural 2", "with a natural 9; melodic minor a minor third up"),
    ("Locrian natural 6", "the ii of harmonic minor"),
];
const SECOND_WITHOUT_MINOR: &[Choice] = &[
    ("Locrian natural 2", "the natural 9 does not rub; melodic minor a minor third up"),
    ("Locrian", "with the b9 of the minor key"),
];
const HALF_DIMINISHED_IN_MAJOR: &[Choice] =
    &[("Locrian", "the notes of the major key"), ("Locrian natural 2", "with a natural 9")];
const THIRD: &[Choice] = &[
    ("Phrygian", "the iii of a major key"),
    ("Aeolian", "the iii with a natural 9"),
    ("Dorian", "the iii lightened, with 9 and 13"),
];
const SIXTH: &[Choice] =
    &[("Aeolian", "the vi of a major key"), ("Dorian", "the vi lightened, with a natural 13")];
const MINOR_FOURTH: &[Choice] = &[
    ("melodic minor", "the minor iv: major sixth and seventh"),
    ("Dorian", "the minor iv with the notes of the minor key"),
];
const MINOR_FOURTH_SEVENTH: &[Choice] =
    &[("Dorian", "the minor iv with the notes of the minor key")];
const WHOLE_HALF: &[Choice] = &[("whole-half diminished", "a whole step above every chord tone")];

impl Function {
    /// The scales that it asks for over `chord`, in order, with reasons. A minor seventh in the
    /// symbol settles what a minor triad leaves open.
    pub(in crate::reading) fn scales(&self, chord: &Chord) -> &'static [Choice] {
        let seventh = chord.names("b7");
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
    pub(in crate::reading) fn reads_otherwise(&self, scale: &str, chord: &Chord) -> bool {
        match self {
            Function::TonicMinor => scale == "melodic minor" && chord.names("b7"),
            Function::Static | Function::TonicOfBlues => {
                scale.ends_with("blues") && chord.is_dominant()
            }
            _ => false,
        }
    }
}
