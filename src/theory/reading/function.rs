//! The functions that chords have, and the scales that each asks for.

use std::fmt;

use super::Key;
use super::home::{home_of, is_chain, resolves_to};
use crate::{Chord, NoteName, PitchClass};

/// What a chord does where it stands.
#[derive(Clone, PartialEq, Debug)]
#[non_exhaustive]
pub enum Function {
    /// A dominant whose home is a fifth below.
    Dominant {
        /// Its home.
        home: Key,
        /// Does the home follow?
        arrives: bool,
    },
    /// A dominant a fifth above the next dominant.
    Chain {
        /// The next one.
        next: Chord,
    },
    /// A dominant a half step above its goal, in place of the one a tritone away.
    HalfStepAbove {
        /// Where it goes.
        goal: NoteName,
        /// The root of the dominant that it stands in for.
        instead_of: NoteName,
    },
    /// A dominant that other dominants come home to.
    TonicOfBlues,
    /// A dominant that does not fall a fifth.
    Static,
    /// The ii of a major key.
    SecondOfMajor {
        /// The key.
        home: Key,
    },
    /// The ii of a minor key.
    SecondOfMinor {
        /// The key.
        home: Key,
        /// Does its tonic follow the V?
        arrives: bool,
    },
    /// A half-diminished chord on the raised fourth degree of a major key.
    RaisedFourth {
        /// The key.
        home: Key,
    },
    /// A half-diminished chord a half step below the tonic of a major key.
    Seventh {
        /// The key.
        home: Key,
    },
    /// The i of a minor key.
    TonicMinor,
    /// A minor or major chord on another degree of a major key: 1, 3, 4 or 6.
    DegreeOf {
        /// The degree.
        degree: u8,
        /// The key.
        home: Key,
    },
    /// A diminished seventh between two chords.
    Passing {
        /// The next chord.
        next: Chord,
        /// Does the root go up to it, or down?
        up: bool,
    },
    /// A diminished seventh on the root of the next chord.
    CommonRoot {
        /// The next chord.
        next: Chord,
    },
    /// Nothing around it says more than the symbol does.
    Alone,
}

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
const WHOLE_HALF: &[Choice] = &[("whole-half diminished", "a whole step above every chord tone")];

impl Function {
    /// The function of the chord at `index`.
    pub(super) fn of(chords: &[Chord], index: usize, key: Option<Key>) -> Option<Function> {
        let chord = chords.get(index)?;
        let before = index.checked_sub(1).and_then(|before| chords.get(before));
        let after = chords.get(index + 1);
        Some(match () {
            () if is_dominant(chord) => dominant(chord, before, after, key),
            () if chord.names("bb7") => diminished(chord, after),
            () if chord.is_half_diminished() => half_diminished(chords, index, key),
            () if chord.names("b3") => minor(chords, index, key),
            () => on_degree(chords, index, key),
        })
    }

    /// The scales it asks for, in order, with reasons; ASCII.
    pub(super) fn scales(&self) -> &'static [Choice] {
        match self {
            Function::Dominant { home, .. } if home.is_minor() => TO_MINOR,
            Function::Dominant { .. } => TO_MAJOR,
            Function::Chain { .. } => &[
                ("Mixolydian", "a dominant in a chain, the V of the next"),
                ("Lydian dominant", "a dominant in a chain, with a #11"),
                ("altered", "every tension altered, leading into the next"),
            ],
            Function::HalfStepAbove { .. } => LYDIAN_DOMINANT,
            Function::TonicOfBlues => TONIC_OF_BLUES,
            Function::Static => STATIC,
            Function::SecondOfMajor { .. } => &[("Dorian", "the ii of a major key")],
            Function::SecondOfMinor { arrives: true, .. } => &[
                ("Locrian", "the b9 belongs to the minor key that follows"),
                ("Locrian natural 2", "with a natural 9; melodic minor a minor third up"),
                ("Locrian natural 6", "the ii of harmonic minor"),
            ],
            Function::SecondOfMinor { arrives: false, .. } => &[
                ("Locrian natural 2", "the natural 9 does not rub; melodic minor a minor third up"),
                ("Locrian", "with the b9 of the minor key"),
            ],
            Function::RaisedFourth { .. } | Function::Seventh { .. } => &[
                ("Locrian", "the notes of the major key"),
                ("Locrian natural 2", "with a natural 9"),
            ],
            Function::TonicMinor => TONIC_MINOR,
            Function::DegreeOf { degree: 3, .. } => &[
                ("Phrygian", "the iii of a major key"),
                ("Aeolian", "the iii with a natural 9"),
                ("Dorian", "the iii lightened, with 9 and 13"),
            ],
            Function::DegreeOf { degree: 6, .. } => &[
                ("Aeolian", "the vi of a major key"),
                ("Dorian", "the vi lightened, with a natural 13"),
            ],
            Function::DegreeOf { degree: 2, .. } => &[("Dorian", "the ii of a major key")],
            Function::DegreeOf { .. } | Function::Alone => &[],
            Function::Passing { .. } | Function::CommonRoot { .. } => WHOLE_HALF,
        }
    }

    /// May the function ask for this scale although the symbol does not fit it?
    pub(super) fn reads_otherwise(&self, scale: &str, chord: &Chord) -> bool {
        match self {
            Function::TonicMinor => scale == "melodic minor" && chord.names("b7"),
            Function::Static | Function::TonicOfBlues => {
                scale.ends_with("blues") && chord.is_dominant()
            }
            _ => false,
        }
    }
}

/// Major third (or a suspended fourth) and minor seventh.
fn is_dominant(chord: &Chord) -> bool {
    chord.is_dominant() || chord.names("4") && chord.names("b7")
}

fn class(chord: &Chord) -> PitchClass {
    chord.root().pitch_class()
}

/// Semitones from the root of one chord up to that of another.
fn up_to(from: &Chord, to: &Chord) -> u8 {
    class(from).semitones_up_to(class(to))
}

fn dominant(
    chord: &Chord,
    before: Option<&Chord>,
    after: Option<&Chord>,
    key: Option<Key>,
) -> Function {
    // Its ii stands a fifth above it.
    let second = before.filter(|before| up_to(chord, before) == 7 && before.names("b3"));
    let minor_second = second.is_some_and(Chord::is_half_diminished);
    if let Some(next) = after {
        if resolves_to(chord, next) {
            let arrives = !is_dominant(next) || chord.is_sus();
            return match is_chain(chord, next) && second.is_none() {
                true => Function::Chain { next: next.clone() },
                false => Function::Dominant {
                    home: Key::new(next.root(), next.is_minor() || next.is_half_diminished()),
                    arrives,
                },
            };
        }
        if up_to(chord, next) == 11 && second.is_none() {
            let instead_of = Key::fifth_above(next.root());
            return Function::HalfStepAbove { goal: next.root(), instead_of };
        }
    }
    if second.is_some() {
        let home = Key::fifth_below(chord.root(), minor_second);
        return Function::Dominant { home, arrives: false };
    }
    let from_another = before.filter(|before| is_dominant(before)).map(|b| up_to(chord, b));
    let on_tonic = key.is_some_and(|key| class(chord) == key.tonic().pitch_class());
    if on_tonic || matches!(from_another, Some(5 | 7)) {
        return Function::TonicOfBlues;
    }
    let of_key = key.filter(|key| class(chord) == key.tonic().pitch_class().up(7));
    match (of_key, after, before) {
        (Some(home), ..) => Function::Dominant { home, arrives: false },
        (None, None, None) => Function::Alone,
        _ => Function::Static,
    }
}

fn diminished(chord: &Chord, after: Option<&Chord>) -> Function {
    match after {
        Some(next) => match up_to(chord, next) {
            0 => Function::CommonRoot { next: next.clone() },
            1 => Function::Passing { next: next.clone(), up: true },
            11 => Function::Passing { next: next.clone(), up: false },
            _ => Function::Alone,
        },
        None => Function::Alone,
    }
}

fn half_diminished(chords: &[Chord], index: usize, key: Option<Key>) -> Function {
    let Some(chord) = chords.get(index) else { return Function::Alone };
    let after = chords.get(index + 1);
    if let Some(next) = after.filter(|next| is_dominant(next) && up_to(chord, next) == 5) {
        let home = Key::fifth_below(next.root(), true);
        let then = chords.get(index + 2);
        let arrives =
            then.is_some_and(|then| class(then) == home.tonic().pitch_class() && then.names("b3"));
        return Function::SecondOfMinor { home, arrives };
    }
    let home = key.or_else(|| home_of(chords, index)).filter(|home| !home.is_minor());
    let above_home = home.map(|home| home.tonic().pitch_class().semitones_up_to(class(chord)));
    match (home, above_home) {
        (Some(home), Some(6)) => Function::RaisedFourth { home },
        (Some(home), Some(11)) => Function::Seventh { home },
        _ => Function::Alone,
    }
}

fn minor(chords: &[Chord], index: usize, key: Option<Key>) -> Function {
    let Some(chord) = chords.get(index) else { return Function::Alone };
    let seventh = chord.names("b7");
    let after = chords.get(index + 1);
    let its_dominant = |next: &&Chord| is_dominant(next) && up_to(chord, next) == 5;
    if let Some(next) = after.filter(its_dominant).filter(|_| seventh) {
        return Function::SecondOfMajor { home: Key::fifth_below(next.root(), false) };
    }
    let before = index.checked_sub(1).and_then(|before| chords.get(before));
    let from_its_fifth =
        before.is_some_and(|before| is_dominant(before) && up_to(chord, before) == 7);
    let of_key = key.is_some_and(|key| key.is_minor() && key.tonic().pitch_class() == class(chord));
    if from_its_fifth || of_key || !seventh {
        return Function::TonicMinor;
    }
    on_degree(chords, index, key)
}

/// A chord of a major key, on whichever degree.
fn on_degree(chords: &[Chord], index: usize, key: Option<Key>) -> Function {
    let Some(chord) = chords.get(index) else { return Function::Alone };
    let home = key.or_else(|| home_of(chords, index)).filter(|home| !home.is_minor());
    let Some(home) = home else { return Function::Alone };
    let minor = chord.names("b3");
    let degree = match home.tonic().pitch_class().semitones_up_to(class(chord)) {
        0 if !minor => 1,
        2 if minor => 2,
        4 if minor => 3,
        5 if !minor => 4,
        9 if minor => 6,
        _ => return Function::Alone,
    };
    Function::DegreeOf { degree, home }
}

impl Function {
    /// The scales of a tonic minor depend on whether its symbol has a ♭7.
    pub(super) fn scales_over(&self, chord: &Chord) -> &'static [Choice] {
        match self {
            Function::TonicMinor if chord.names("b7") => TONIC_MINOR_SEVENTH,
            _ => self.scales(),
        }
    }
}

impl fmt::Display for Function {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let home_follows = |f: &mut fmt::Formatter<'_>, home: &Key, arrives: bool| {
            if arrives {
                return f.write_str(", which follows");
            }
            f.write_str(", though ")?;
            home.fmt(f)?;
            f.write_str(" does not follow")
        };
        match self {
            Function::Dominant { home, arrives } => {
                f.write_str("V of ")?;
                home.fmt(f)?;
                home_follows(f, home, *arrives)
            }
            Function::Chain { next } => {
                f.write_str("V of ")?;
                next.fmt(f)?;
                f.write_str(", a chain of dominants")
            }
            Function::HalfStepAbove { goal, instead_of } => {
                f.write_str("a half step above ")?;
                goal.fmt(f)?;
                f.write_str(", in place of ")?;
                instead_of.fmt(f)?;
                f.write_str("7")
            }
            Function::TonicOfBlues => f.write_str("tonic of a blues"),
            Function::Static => f.write_str("does not fall a fifth"),
            Function::SecondOfMajor { home } => {
                f.write_str("ii of ")?;
                home.fmt(f)
            }
            Function::SecondOfMinor { home, arrives } => {
                f.write_str("ii of ")?;
                home.fmt(f)?;
                home_follows(f, home, *arrives)
            }
            Function::RaisedFourth { home } => {
                f.write_str(if f.alternate() { "#iv of " } else { "♯iv of " })?;
                home.fmt(f)
            }
            Function::Seventh { home } => {
                f.write_str("vii of ")?;
                home.fmt(f)
            }
            Function::TonicMinor => f.write_str("tonic minor"),
            Function::DegreeOf { degree, home } => {
                let numeral = match degree {
                    1 => "I",
                    2 => "ii",
                    3 => "iii",
                    4 => "IV",
                    _ => "vi",
                };
                write!(f, "{numeral} of ")?;
                home.fmt(f)
            }
            Function::Passing { next, up } => {
                write!(f, "passing {} to ", if *up { "up" } else { "down" })?;
                next.fmt(f)
            }
            Function::CommonRoot { next } => {
                f.write_str("common root with ")?;
                next.fmt(f)
            }
            Function::Alone => f.write_str("by itself"),
        }
    }
}
