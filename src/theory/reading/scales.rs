//! The scales that each function asks for, first choice first; all text is ASCII.

use crate::function::{Arrival, KeyDegree};
use crate::{Chord, Degree, Function, Key, ScaleKind, fits};

type Choice = (ScaleKind, &'static str);

const OFF_THE_FIFTH: &str = "does not fall a fifth: the #11 does not rub; melodic minor a fifth up";
const TO_MINOR: &[Choice] = &[
    (ScaleKind::ALTERED, "bound for minor: every tension altered; melodic minor a half step up"),
    (ScaleKind::PHRYGIAN_DOMINANT, "bound for minor: the V of harmonic minor"),
    (ScaleKind::MIXOLYDIAN_FLAT_6, "bound for minor, with a natural 9"),
    (ScaleKind::HALF_WHOLE_DIMINISHED, "altered ninths with the bright 13"),
];
const FIFTH_OF_MINOR: &[Choice] = &[
    (ScaleKind::PHRYGIAN_DOMINANT, "bound for minor: the V of harmonic minor"),
    (ScaleKind::MIXOLYDIAN_FLAT_6, "bound for minor, with a natural 9"),
    (ScaleKind::ALTERED, "bound for minor: every tension altered; melodic minor a half step up"),
];
const FROM_MINOR_TO_MAJOR: &[Choice] = &[
    (ScaleKind::PHRYGIAN_DOMINANT, "bound for major, with the b9 and b13 of its ii"),
    (ScaleKind::HALF_WHOLE_DIMINISHED, "bound for major: the b9 of its ii with a natural 13"),
    (ScaleKind::ALTERED, "bound for major, with every tension altered"),
    (ScaleKind::MIXOLYDIAN, "bound for major: the V of the key"),
];
const TO_MAJOR: &[Choice] = &[
    (ScaleKind::MIXOLYDIAN, "bound for major: the V of the key"),
    (ScaleKind::LYDIAN_DOMINANT, "bound for major, with a #11"),
    (ScaleKind::HALF_WHOLE_DIMINISHED, "bound for major: altered ninths with a natural 13"),
    (ScaleKind::ALTERED, "bound for major, with every tension altered"),
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
    (ScaleKind::LOCRIAN, "the b9 belongs to the minor key"),
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
const FIRST: &[Choice] = &[
    (ScaleKind::IONIAN, "the I of a major key"),
    (ScaleKind::LYDIAN, "the I with a #11, which does not rub"),
];
const FIRST_WITH_SEVENTH: &[Choice] = &[
    (ScaleKind::LYDIAN, "the #11 does not rub"),
    (ScaleKind::IONIAN, "the plain major scale; its 4 rubs against the 3"),
];
const LOWERED: &[Choice] =
    &[(ScaleKind::LYDIAN, "borrowed from minor: its #11 is a note of the key")];
const LOWERED_SEVENTH: &[Choice] = &[
    (ScaleKind::MIXOLYDIAN, "borrowed from minor, with a b7"),
    (ScaleKind::LYDIAN, "borrowed from minor, with a #11"),
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
const FOURTH: &[Choice] = &[(ScaleKind::LYDIAN, "the IV of a major key")];
const FOURTH_OVER_FIFTH: &[Choice] = &[(ScaleKind::LYDIAN, "Mixolydian from its bass, the V")];
const FOURTH_OVER_FIFTH_OF_MINOR: &[Choice] = &[
    (ScaleKind::LYDIAN_DOMINANT, "bound for minor: melodic minor of the key"),
    (ScaleKind::LYDIAN, "Mixolydian from its bass, the V"),
];
const FIFTH: &[Choice] = &[(ScaleKind::MIXOLYDIAN, "the V of a major key")];
const SEVENTH: &[Choice] = &[(ScaleKind::LOCRIAN, "the vii of a major key")];
const FIRST_IN_MINOR: &[Choice] = &[(ScaleKind::AEOLIAN, "the notes of the minor key")];
const SECOND_IN_MINOR: &[Choice] = &[(ScaleKind::LOCRIAN, "the notes of the minor key")];
const SECOND_IN_MINOR_WITH_FIFTH: &[Choice] = &[
    (ScaleKind::PHRYGIAN, "the notes of the minor key with its major sixth"),
    (ScaleKind::DORIAN, "the ii lightened, with 9 and 13"),
];
const THIRD_IN_MINOR: &[Choice] = &[
    (ScaleKind::IONIAN, "the notes of the minor key"),
    (ScaleKind::LYDIAN, "the minor key's relative major, with a #11"),
];
const FOURTH_IN_MINOR: &[Choice] = &[(ScaleKind::DORIAN, "the notes of the minor key")];
const FIFTH_IN_MINOR: &[Choice] = &[(ScaleKind::PHRYGIAN, "the notes of the minor key")];
const SIXTH_IN_MINOR: &[Choice] = &[(ScaleKind::LYDIAN, "the notes of the minor key")];
const SEVENTH_IN_MINOR: &[Choice] = &[(ScaleKind::MIXOLYDIAN, "the notes of the minor key")];
const FOURTH_OF_BLUES: &[Choice] = &[
    (
        ScaleKind::LYDIAN_DOMINANT,
        "the IV of a blues: its #11 is the third of V; melodic minor on I",
    ),
    (ScaleKind::MIXOLYDIAN, "the IV of a blues with its plain fourth"),
    (ScaleKind::MINOR_BLUES, "a reading: the blues over its own IV, though it has no major third"),
    (ScaleKind::MAJOR_BLUES, "a reading: the bright blues, though it has no b7"),
];
const MINOR_FOURTH: &[Choice] = &[
    (ScaleKind::MELODIC_MINOR, "the minor iv: major sixth and seventh"),
    (ScaleKind::DORIAN, "the minor iv with the notes of the minor key"),
];
const MINOR_FOURTH_SEVENTH: &[Choice] =
    &[(ScaleKind::DORIAN, "the minor iv with the notes of the minor key")];
const WHOLE_HALF: &[Choice] =
    &[(ScaleKind::WHOLE_HALF_DIMINISHED, "a whole step above every chord tone")];

impl KeyDegree {
    /// Does the scale of the key on this degree hold what the symbol writes?
    pub(super) fn holds(self, chord: &Chord, home: Key) -> bool {
        let kind = self.choices(home).first().map(|(kind, _)| kind);
        kind.is_some_and(|kind| fits(chord, kind.set_over(chord.root().pitch_class())))
    }

    /// The scale of the key on this degree, then what players put in its place.
    fn choices(self, home: Key) -> &'static [Choice] {
        match (self, home.is_minor()) {
            (KeyDegree::First, false) => FIRST,
            (KeyDegree::Second, false) => SECOND,
            (KeyDegree::Third, false) => THIRD,
            (KeyDegree::Fourth, false) => FOURTH,
            (KeyDegree::Fifth, false) => FIFTH,
            (KeyDegree::Sixth, false) => SIXTH,
            (KeyDegree::Seventh, false) => SEVENTH,
            (KeyDegree::First, true) => FIRST_IN_MINOR,
            (KeyDegree::Second, true) => SECOND_IN_MINOR,
            (KeyDegree::Third, true) => THIRD_IN_MINOR,
            (KeyDegree::Fourth, true) => FOURTH_IN_MINOR,
            (KeyDegree::Fifth, true) => FIFTH_IN_MINOR,
            (KeyDegree::Sixth, true) => SIXTH_IN_MINOR,
            (KeyDegree::Seventh, true) => SEVENTH_IN_MINOR,
        }
    }
}

impl Function {
    /// The scales that it asks for over `chord`, in order, with reasons. A minor seventh in the
    /// symbol settles what a minor triad leaves open.
    pub(super) fn scales(&self, chord: &Chord) -> &'static [Choice] {
        let seventh = chord.names(Degree::MINOR_SEVENTH);
        match self {
            // Written with the b13 beside its fifth, or as a triad, it is the V of harmonic minor.
            Function::Dominant { home, .. }
                if home.is_minor() && (!seventh || chord.names(Degree::FLAT_THIRTEENTH)) =>
            {
                FIFTH_OF_MINOR
            }
            Function::Dominant { home, .. } if home.is_minor() => TO_MINOR,
            Function::Dominant { .. } => TO_MAJOR,
            Function::DominantFromMinor { .. } => FROM_MINOR_TO_MAJOR,
            Function::Chain { .. } => CHAIN,
            Function::HalfStepAbove { .. } => LYDIAN_DOMINANT,
            Function::BackDoor { .. } => BACKDOOR,
            Function::TonicOfBlues => TONIC_OF_BLUES,
            Function::FourthOfBlues { .. } => FOURTH_OF_BLUES,
            Function::Static => STATIC,
            Function::FourthOverFifth { home, .. } if home.is_minor() => FOURTH_OVER_FIFTH_OF_MINOR,
            Function::FourthOverFifth { .. } => FOURTH_OVER_FIFTH,
            Function::SecondOfMajor { .. } => SECOND,
            Function::SecondOfMinor { arrival: Arrival::FailsToCome, .. } => SECOND_WITHOUT_MINOR,
            Function::SecondOfMinor { .. } => SECOND_BEFORE_MINOR,
            Function::RaisedFourth { .. } | Function::LeadingTone { .. } => {
                HALF_DIMINISHED_IN_MAJOR
            }
            Function::TonicMinor if seventh => TONIC_MINOR_SEVENTH,
            Function::TonicMinor => TONIC_MINOR,
            Function::MinorFourth { .. } if seventh => MINOR_FOURTH_SEVENTH,
            Function::MinorFourth { .. } => MINOR_FOURTH,
            // The major seventh of a tonic leaves room for its #11.
            Function::DegreeOf { degree: KeyDegree::First, .. }
                if chord.names(Degree::MAJOR_SEVENTH) =>
            {
                FIRST_WITH_SEVENTH
            }
            Function::DegreeOf { degree: KeyDegree::Second, home }
                if home.is_minor() && chord.names(Degree::FIFTH) =>
            {
                SECOND_IN_MINOR_WITH_FIFTH
            }
            Function::DegreeOf { degree, home } => degree.choices(*home),
            Function::Lowered { degree: KeyDegree::Seventh, .. } => LOWERED_SEVENTH,
            Function::Lowered { .. } => LOWERED,
            Function::Standing | Function::Alone => &[],
            Function::Passing { .. } | Function::CommonRoot { .. } => WHOLE_HALF,
        }
    }

    /// Is it a tonic, or stands as one?
    pub(super) fn is_home(&self) -> bool {
        matches!(
            self,
            Function::TonicMinor
                | Function::TonicOfBlues
                | Function::Standing
                | Function::DegreeOf { degree: KeyDegree::First, .. }
        )
    }

    /// May a chord that does this stand by itself, if it stands long enough?
    pub(super) fn may_stand(&self) -> bool {
        match self {
            Function::DegreeOf { degree, .. } => *degree != KeyDegree::First,
            Function::Static
            | Function::Alone
            | Function::MinorFourth { .. }
            | Function::Lowered { .. } => true,
            _ => false,
        }
    }

    /// May the function ask for this scale although the symbol does not fit it?
    pub(super) fn reads_otherwise(&self, scale: &ScaleKind, chord: &Chord) -> bool {
        match self {
            Function::TonicMinor => {
                *scale == ScaleKind::MELODIC_MINOR && chord.names(Degree::MINOR_SEVENTH)
            }
            Function::Static | Function::TonicOfBlues | Function::FourthOfBlues { .. } => {
                [ScaleKind::MINOR_BLUES, ScaleKind::MAJOR_BLUES].contains(scale)
                    && chord.is_dominant()
            }
            _ => false,
        }
    }
}
