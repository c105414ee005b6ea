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
    /// A dominant that comes, with its ii, a whole step below a major chord and goes up to it.
    WholeStepBelow {
        /// Where it goes.
        goal: NoteName,
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

impl Function {
    /// What stands before the note, key or chord that the function refers to; all of it where it
    /// refers to none. With signs.
    fn words(&self) -> &'static str {
        match self {
            Function::Dominant { .. } | Function::Chain { .. } => "V of ",
            Function::HalfStepAbove { .. } => "a half step above ",
            Function::WholeStepBelow { .. } => "a whole step below ",
            Function::TonicOfBlues => "tonic of a blues",
            Function::Static => "does not fall a fifth",
            Function::SecondOfMajor { .. } | Function::SecondOfMinor { .. } => "ii of ",
            Function::RaisedFourth { .. } => "♯iv of ",
            Function::LeadingTone { .. } => "vii of ",
            Function::TonicMinor => "tonic minor",
            Function::MinorFourth { .. } => "iv of ",
            Function::DegreeOf { degree: 1, .. } => "I of ",
            Function::DegreeOf { degree: 2, .. } => "ii of ",
            Function::DegreeOf { degree: 3, .. } => "iii of ",
            Function::DegreeOf { degree: 4, .. } => "IV of ",
            Function::DegreeOf { .. } => "vi of ",
            Function::Passing { up: true, .. } => "passing up to ",
            Function::Passing { up: false, .. } => "passing down to ",
            Function::CommonRoot { .. } => "common root with ",
            Function::Alone => "by itself",
        }
    }
}

impl fmt::Display for Function {
    /// As a player says it, `{:#}` in ASCII.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Function::RaisedFourth { .. } if f.alternate() => f.write_str("#iv of ")?,
            _ => f.write_str(self.words())?,
        }
        match self {
            Function::Dominant { home, arrives } | Function::SecondOfMinor { home, arrives } => {
                write_arrival(f, home, *arrives)
            }
            Function::Chain { next } => {
                next.fmt(f)?;
                f.write_str(", a chain of dominants")
            }
            Function::HalfStepAbove { goal, instead_of } => {
                goal.fmt(f)?;
                f.write_str(", in place of ")?;
                instead_of.fmt(f)?;
                f.write_str("7")
            }
            Function::WholeStepBelow { goal } => goal.fmt(f),
            Function::MinorFourth { home } => {
                home.fmt(f)?;
                f.write_str(if home.is_minor() { "" } else { ", borrowed from minor" })
            }
            Function::SecondOfMajor { home }
            | Function::RaisedFourth { home }
            | Function::LeadingTone { home }
            | Function::DegreeOf { home, .. } => home.fmt(f),
            Function::Passing { next, .. } | Function::CommonRoot { next } => next.fmt(f),
            Function::TonicOfBlues | Function::Static | Function::TonicMinor | Function::Alone => {
                Ok(())
            }
        }
    }
}

/// `C minor, which follows`, or that it does not.
fn write_arrival(f: &mut fmt::Formatter<'_>, home: &Key, arrives: bool) -> fmt::Result {
    home.fmt(f)?;
    if arrives {
        return f.write_str(", which follows");
    }
    f.write_str(", though ")?;
    home.fmt(f)?;
    f.write_str(" does not follow")
}
