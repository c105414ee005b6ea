//! Notes of a line.

use crate::time::Quarters;
use crate::{Pitch, WhichTriad};

/// A note of a line, and where it comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PhraseNote {
    /// When it begins.
    pub onset: Quarters,
    /// How long it is, which is not nothing.
    pub duration: Quarters,
    /// What sounds.
    pub pitch: Pitch,
    /// Whose note it is.
    pub role: Role,
    /// Which phrase it belongs to, counted from 0.
    pub phrase: usize,
    /// Which group of the phrase it belongs to, counted from 0.
    pub group: usize,
    /// Is it accented?
    pub accent: bool,
}

/// Whose note it is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Role {
    /// A note of a triad of the pair.
    Triad(WhichTriad),
    /// A free note: an approach, a scale step, a note aimed at that the pair does not have.
    Free,
}

impl PhraseNote {
    /// When it ends.
    #[must_use]
    pub fn end(&self) -> Quarters {
        // Made of moments that were added once.
        self.onset.checked_add(self.duration).unwrap_or(self.onset)
    }
}
