//! Why there is no comping.

use std::fmt;

use fretloom_theory::WhichTriad;

use crate::FretRange;

/// Why the pairs of a form cannot be comped as it was asked for: the condition that fails.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum CompingError {
    /// There is no chord.
    NoChords,
    /// On these strings and at these frets there is no shape of a triad.
    NoShape {
        /// Over which chord of the form, from 0.
        chord: usize,
        /// Which triad of the chord's pair.
        which: WhichTriad,
    },
    /// A triad has shapes there, and this hand can hold none of them.
    NotHeld {
        /// Over which chord of the form, from 0.
        chord: usize,
        /// Which triad of the chord's pair.
        which: WhichTriad,
    },
    /// No area of so many frets has a shape of every triad.
    NoArea {
        /// How many frets.
        frets: u8,
        /// What would help.
        relief: CompingRelief,
    },
    /// The top voice would have to go further on its way to a chord.
    TopVoice {
        /// Over which chord of the form it gets stuck, from 0.
        chord: usize,
        /// How many semitones it may go.
        semitones: u8,
        /// The frets, where all is to lie between these; none where it may be in any area.
        within: Option<FretRange>,
        /// What would help.
        relief: CompingRelief,
    },
    /// The form can be comped once, but the top voice would have to go further from the end to the
    /// beginning.
    NoRound {
        /// How many semitones it may go.
        semitones: u8,
        /// What would help.
        relief: CompingRelief,
    },
}

/// What would help, each by itself; it has been tried.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct CompingRelief {
    /// How many semitones the top voice would have to go; none where an octave is not enough.
    pub semitones: Option<u8>,
    /// An area of how many frets would do; none where no area does, or its frets are fixed.
    pub frets: Option<u8>,
}

impl fmt::Display for CompingRelief {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let frets = self.frets.map(|frets| format!("an area of {frets} frets"));
        let top = self.semitones.map(semitones_in_words);
        let top = top.map(|semitones| format!("{semitones} for the top voice"));
        match (frets, top) {
            (Some(frets), Some(top)) => write!(f, "{frets} would do, or {top}"),
            (Some(one), None) | (None, Some(one)) => write!(f, "{one} would do"),
            (None, None) => f.write_str("expected more strings or more frets"),
        }
    }
}

impl fmt::Display for CompingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CompingError::NoChords => f.write_str("there is no chord; expected at least one"),
            CompingError::NoShape { chord, which } => write!(
                f,
                "the {} triad of chord {} has no shape on these strings at these frets; expected \
                 more strings or more frets",
                in_words(*which),
                chord + 1
            ),
            CompingError::NotHeld { chord, which } => write!(
                f,
                "this hand holds no shape of the {} triad of chord {} there; expected other \
                 strings, higher frets or a longer reach",
                in_words(*which),
                chord + 1
            ),
            CompingError::NoArea { frets, relief } => {
                write!(f, "no {frets} frets have a shape of every triad; {relief}")
            }
            CompingError::TopVoice { chord, semitones, within, relief } => {
                write!(f, "the top voice cannot go on to chord {}", chord + 1)?;
                within.map_or(Ok(()), |frets| write!(f, " at frets {frets}"))?;
                write!(f, " in steps of at most {}; {relief}", semitones_in_words(*semitones))
            }
            CompingError::NoRound { semitones, relief } => write!(
                f,
                "the top voice cannot go from the last chord to the first in steps of at most {}; \
                 {relief}, and so would playing it once",
                semitones_in_words(*semitones)
            ),
        }
    }
}

impl std::error::Error for CompingError {}

fn in_words(which: WhichTriad) -> &'static str {
    match which {
        WhichTriad::First => "first",
        WhichTriad::Second => "second",
    }
}

/// `1 semitone`, `3 semitones`.
fn semitones_in_words(count: u8) -> String {
    if count == 1 { "1 semitone".to_owned() } else { format!("{count} semitones") }
}
