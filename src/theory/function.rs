//! What chords do in a key, as functional harmony names it. A [`Reading`](crate::Reading) finds it.

use std::fmt::{self, Display as _};

use crate::{Chord, Key, NoteName};

/// What a chord does where it stands.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Function {
    /// A dominant whose home is a fifth below.
    Dominant {
        /// Its home.
        home: Key,
        /// Does the home follow?
        arrival: Arrival,
    },
    /// The IV of a key over its V in the bass, which sounds as the V with a suspended fourth.
    FourthOverFifth {
        /// The key.
        home: Key,
        /// Does its tonic follow?
        arrival: Arrival,
    },
    /// A dominant that comes from a half-diminished ii and goes to a major tonic.
    DominantFromMinor {
        /// Its home, a major key.
        home: Key,
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
    /// A dominant a whole step below a major tonic that goes up to it.
    BackDoor {
        /// Its home, a major key.
        home: Key,
        /// Does the home follow?
        arrival: Arrival,
    },
    /// A dominant that other dominants come home to.
    TonicOfBlues,
    /// The dominant a fourth above that one.
    FourthOfBlues {
        /// The tonic of the blues.
        tonic: NoteName,
    },
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
        /// Does its tonic follow?
        arrival: Arrival,
    },
    /// A half-diminished chord on the raised fourth degree of a major key.
    RaisedFourth {
        /// The key.
        home: Key,
    },
    /// A half-diminished chord a half step below the tonic of a major key.
    LeadingTone {
        /// The key.
        home: Key,
    },
    /// The i of a minor key.
    TonicMinor,
    /// A minor chord on the fourth degree; in a major key it is borrowed from minor.
    MinorFourth {
        /// The key.
        home: Key,
    },
    /// A chord that holds notes of a key alone, on this degree of it.
    DegreeOf {
        /// The degree.
        degree: KeyDegree,
        /// The key.
        home: Key,
    },
    /// A major chord on a lowered degree of a key, as in the minor key on its tonic.
    Lowered {
        /// The degree that is lowered.
        degree: KeyDegree,
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
    /// A diminished seventh that holds the root of the next chord.
    CommonRoot {
        /// The next chord.
        next: Chord,
    },
    /// It stands for so long that it is a mode by itself.
    Standing,
    /// Nothing around it says more than the symbol does.
    Alone,
}

/// Whether the home that a chord is bound for follows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Arrival {
    /// It does.
    Follows,
    /// It does, and goes on at once as the ii of a major key.
    FollowsAsSecond,
    /// The key of the tune says so, or nothing is known of what follows.
    Expected,
    /// Another chord of the key comes in its place.
    InPlace(KeyDegree),
    /// Something else follows.
    FailsToCome,
}

/// A degree of a key's own scale; in a minor key of natural minor.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum KeyDegree {
    First,
    Second,
    Third,
    Fourth,
    Fifth,
    Sixth,
    Seventh,
}

impl KeyDegree {
    /// The degree that lies `semitones` above the tonic of `home`.
    pub(crate) fn at(semitones: u8, home: Key) -> Option<KeyDegree> {
        let degrees = [
            (0, 0, KeyDegree::First),
            (2, 2, KeyDegree::Second),
            (4, 3, KeyDegree::Third),
            (5, 5, KeyDegree::Fourth),
            (7, 7, KeyDegree::Fifth),
            (9, 8, KeyDegree::Sixth),
            (11, 10, KeyDegree::Seventh),
        ];
        let is_there = |(major, minor, _): &(u8, u8, KeyDegree)| {
            semitones == if home.is_minor() { *minor } else { *major }
        };
        degrees.into_iter().find(is_there).map(|(.., degree)| degree)
    }

    /// The Roman numeral of a major chord on this degree, lowered, with signs.
    fn lowered_numeral(self) -> &'static str {
        match self {
            KeyDegree::First => "♭I",
            KeyDegree::Second => "♭II",
            KeyDegree::Third => "♭III",
            KeyDegree::Fourth => "♭IV",
            KeyDegree::Fifth => "♭V",
            KeyDegree::Sixth => "♭VI",
            KeyDegree::Seventh => "♭VII",
        }
    }

    /// The Roman numeral of the degree's own triad, with signs.
    fn numeral(self, home: Key) -> &'static str {
        match (self, home.is_minor()) {
            (KeyDegree::First, false) => "I",
            (KeyDegree::First, true) => "i",
            (KeyDegree::Second, _) => "ii",
            (KeyDegree::Third, false) => "iii",
            (KeyDegree::Third, true) => "♭III",
            (KeyDegree::Fourth, false) => "IV",
            (KeyDegree::Fourth, true) => "iv",
            (KeyDegree::Fifth, false) => "V",
            (KeyDegree::Fifth, true) => "v",
            (KeyDegree::Sixth, false) => "vi",
            (KeyDegree::Sixth, true) => "♭VI",
            (KeyDegree::Seventh, false) => "vii",
            (KeyDegree::Seventh, true) => "♭VII",
        }
    }
}

impl Function {
    /// What stands before the note, key or chord that the function refers to; all of it where it
    /// refers to none. With signs.
    fn words(&self) -> &'static str {
        match self {
            Function::Dominant { .. }
            | Function::DominantFromMinor { .. }
            | Function::Chain { .. } => "V of ",
            Function::FourthOverFifth { .. } => "suspended V of ",
            Function::HalfStepAbove { .. } => "tritone substitute of ",
            Function::BackDoor { .. } => "back-door dominant of ",
            Function::TonicOfBlues => "tonic of a blues",
            Function::FourthOfBlues { .. } => "IV of a blues in ",
            Function::Static => "does not fall a fifth",
            Function::SecondOfMajor { .. } | Function::SecondOfMinor { .. } => "ii of ",
            Function::RaisedFourth { .. } => "♯iv of ",
            Function::LeadingTone { .. } => "vii of ",
            Function::TonicMinor => "tonic minor",
            Function::MinorFourth { .. } => "iv of ",
            Function::DegreeOf { degree, home } => degree.numeral(*home),
            Function::Lowered { degree, .. } => degree.lowered_numeral(),
            Function::Passing { up: true, .. } => "passing up to ",
            Function::Passing { up: false, .. } => "passing down to ",
            Function::CommonRoot { .. } => "holds the root of ",
            Function::Standing => "stands still, a mode by itself",
            Function::Alone => "by itself",
        }
    }
}

impl fmt::Display for Function {
    /// As a player says it, `{:#}` in ASCII.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_numeral(f, self.words())?;
        match self {
            Function::Dominant { home, arrival }
            | Function::FourthOverFifth { home, arrival }
            | Function::BackDoor { home, arrival }
            | Function::SecondOfMinor { home, arrival } => write_arrival(f, home, *arrival),
            Function::DominantFromMinor { home } => {
                home.fmt(f)?;
                f.write_str(", with the flat 9 of its ii")
            }
            Function::Chain { next } => {
                next.fmt(f)?;
                f.write_str(", a chain of dominants")
            }
            Function::HalfStepAbove { goal, instead_of } => {
                instead_of.fmt(f)?;
                f.write_str("7, a half step above ")?;
                goal.fmt(f)
            }
            Function::FourthOfBlues { tonic } => tonic.fmt(f),
            Function::MinorFourth { home } => {
                home.fmt(f)?;
                f.write_str(if home.is_minor() { "" } else { ", borrowed from minor" })
            }
            Function::DegreeOf { home, .. } => {
                f.write_str(" of ")?;
                home.fmt(f)
            }
            Function::Lowered { home, .. } => {
                f.write_str(" of ")?;
                home.fmt(f)?;
                f.write_str(if home.is_minor() { "" } else { ", borrowed from minor" })
            }
            Function::SecondOfMajor { home }
            | Function::RaisedFourth { home }
            | Function::LeadingTone { home } => home.fmt(f),
            Function::Passing { next, .. } | Function::CommonRoot { next } => next.fmt(f),
            Function::TonicOfBlues
            | Function::Static
            | Function::TonicMinor
            | Function::Standing
            | Function::Alone => Ok(()),
        }
    }
}

/// Words that may begin with a sign.
fn write_numeral(f: &mut fmt::Formatter<'_>, words: &str) -> fmt::Result {
    match words.chars().next() {
        Some('♯') if f.alternate() => write!(f, "#{}", &words['♯'.len_utf8()..]),
        Some('♭') if f.alternate() => write!(f, "b{}", &words['♭'.len_utf8()..]),
        _ => f.write_str(words),
    }
}

/// `C minor, which follows`, or that it does not.
fn write_arrival(f: &mut fmt::Formatter<'_>, home: &Key, arrival: Arrival) -> fmt::Result {
    home.fmt(f)?;
    match arrival {
        Arrival::Follows | Arrival::FollowsAsSecond => f.write_str(", which follows"),
        Arrival::Expected => Ok(()),
        Arrival::InPlace(degree) => {
            f.write_str(", with ")?;
            write_numeral(f, degree.numeral(*home))?;
            f.write_str(if home.is_minor() { " in place of i" } else { " in place of I" })
        }
        Arrival::FailsToCome => {
            f.write_str(", though ")?;
            home.fmt(f)?;
            f.write_str(" does not follow")
        }
    }
}
