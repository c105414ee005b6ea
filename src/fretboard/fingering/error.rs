//! Why a line cannot be fingered.

use std::fmt;

/// Why there is no fingering.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum FingeringError {
    /// These notes have no place: their indices in the line, and why.
    Misfits(Vec<(usize, Misfit)>),
}

/// Why a note has no place.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Misfit {
    /// The instrument does not have it.
    NotOnTheNeck,
    /// It does not sound on the string or at the fret it is pinned to.
    NotWherePinned,
    /// It does not sound where the fingering is asked for: other strings, frets or positions.
    NotWhereAsked,
}

impl Misfit {
    /// What is wrong with the note, to be put after its name.
    #[must_use]
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Misfit::NotOnTheNeck => "is not on this neck",
            Misfit::NotWherePinned => "does not sound where it is pinned",
            Misfit::NotWhereAsked => "does not sound on the strings and frets asked for",
        }
    }
}

impl fmt::Display for FingeringError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FingeringError::Misfits(misfits) => {
                let count = misfits.len();
                let notes = if count == 1 { "note has" } else { "notes have" };
                write!(f, "{count} {notes} no place")?;
                misfits.first().map_or(Ok(()), |(index, misfit)| {
                    write!(f, "; the first, note {}, {}", index + 1, misfit.words())
                })
            }
        }
    }
}

impl std::error::Error for FingeringError {}
