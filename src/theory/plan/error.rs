//! Why there is no plan.

use std::fmt;

/// Why a form has no plan as it was asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum PlanError {
    /// There is no chord in it.
    NoChords,
    /// Nothing that is wanted can be played over the chord with this index.
    NoPair {
        /// Which chord, from 0.
        chord: usize,
    },
    /// Pairs can be played over the chord with this index, but not in the places that are wanted.
    NoPlace {
        /// Which chord, from 0.
        chord: usize,
    },
    /// No pairs as few as are wanted were found that serve the whole form.
    TooFewPairs {
        /// How many are wanted at most.
        most: usize,
        /// How many are enough.
        enough: usize,
    },
}

impl fmt::Display for PlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PlanError::NoChords => f.write_str("there is no chord; expected at least one"),
            PlanError::NoPair { chord } => write!(
                f,
                "chord {} has no pair that does all that is wanted; expected fewer wishes there",
                chord + 1
            ),
            PlanError::NoPlace { chord } => write!(
                f,
                "chord {} has no pair in these places; expected more strings or more frets",
                chord + 1
            ),
            PlanError::TooFewPairs { most, enough } => write!(
                f,
                "no {most} pairs were found that serve all chords; expected {enough} or more"
            ),
        }
    }
}

impl std::error::Error for PlanError {}
