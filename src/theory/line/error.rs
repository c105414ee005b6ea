//! Why a line cannot be made.

use std::fmt;

use crate::time::Quarters;
use crate::{Inversion, NamedPitch, Pitch, WhichTriad};

/// Why a line cannot be made. `phrase` counts from 0.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum LineError {
    /// No inversion of a triad has all the notes of a group among those that may be used.
    NoShape {
        /// Of which phrase.
        phrase: usize,
        /// Which triad.
        which: WhichTriad,
        /// The figures of the group.
        figures: String,
    },
    /// The inversion that it should begin with has not.
    NoStart {
        /// Of which phrase.
        phrase: usize,
        /// Which triad.
        which: WhichTriad,
        /// The inversion, where one is asked for.
        inversion: Option<Inversion>,
    },
    /// The note that should lead to another one is not among those that may be used.
    NoLeading {
        /// Of which phrase.
        phrase: usize,
        /// Where it should lead.
        to: Pitch,
    },
    /// A note that was entered is not among those that may be used.
    NotThere {
        /// Of which phrase.
        phrase: usize,
        /// The note.
        pitch: Pitch,
    },
    /// No way has one highest note in its third quarter.
    NoArc {
        /// Of which phrase.
        phrase: usize,
    },
    /// The target is not among the notes that may be used.
    NoTarget {
        /// Of which phrase.
        phrase: usize,
    },
    /// No note, or too few, come before the target for the approach that is wanted.
    NoRoom {
        /// Of which phrase.
        phrase: usize,
        /// How many notes the approach takes.
        wanted: usize,
    },
    /// The target comes before the phrase, or after the next one begins.
    TargetOutside {
        /// Of which phrase.
        phrase: usize,
        /// When it should come.
        at: Quarters,
    },
    /// The moments do not fit [`Quarters`].
    Inexact,
    /// It would have more notes than [`Line::LONGEST`](crate::Line::LONGEST).
    TooLong,
}

impl fmt::Display for LineError {
    /// The condition that fails; then, after a semicolon, what would help.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let triad = |which: WhichTriad| match which {
            WhichTriad::First => "the first triad",
            WhichTriad::Second => "the second triad",
        };
        match self {
            LineError::NoShape { phrase, which, figures } => write!(
                f,
                "phrase {}: no inversion of {} has all the notes of {figures} here; \
                 expected more strings or frets, or a narrower pattern",
                phrase + 1,
                triad(*which),
            ),
            LineError::NoStart { phrase, which, inversion } => {
                let wanted = match inversion {
                    Some(Inversion::Root) => " in root position",
                    Some(Inversion::First) => " in first inversion",
                    Some(Inversion::Second) => " in second inversion",
                    None => " on that note",
                };
                write!(
                    f,
                    "phrase {}: it cannot begin with {}{wanted} here; \
                     expected another start, or more strings or frets",
                    phrase + 1,
                    triad(*which),
                )
            }
            LineError::NoLeading { phrase, to } => write!(
                f,
                "phrase {}: the note that leads to {} is not among those that may be used; \
                 expected more strings or frets, or another start",
                phrase + 1,
                NamedPitch::everyday(*to),
            ),
            LineError::NotThere { phrase, pitch } => write!(
                f,
                "phrase {}: {} is not among the notes that may be used; \
                 expected more strings or frets, or another note",
                phrase + 1,
                NamedPitch::everyday(*pitch),
            ),
            LineError::NoArc { phrase } => write!(
                f,
                "phrase {}: it cannot rise to one highest note in its third quarter here; \
                 expected more strings or frets, or more notes",
                phrase + 1
            ),
            LineError::NoTarget { phrase } => write!(
                f,
                "phrase {}: the target is not among the notes that may be used; \
                 expected more strings or frets, or another target",
                phrase + 1
            ),
            LineError::NoRoom { phrase, wanted } => write!(
                f,
                "phrase {}: there is no room for {wanted} notes of approach before the target; \
                 expected a later target, shorter notes or another approach",
                phrase + 1
            ),
            LineError::TargetOutside { phrase, at } => write!(
                f,
                "phrase {}: the target at quarter {at} does not lie in it; \
                 expected one after its beginning and not after its end",
                phrase + 1
            ),
            LineError::Inexact => {
                f.write_str("the rhythm does not add up exactly; expected plainer values")
            }
            LineError::TooLong => f.write_str(
                "the line would have more than 100,000 notes; expected fewer bars or longer notes",
            ),
        }
    }
}

impl std::error::Error for LineError {}
