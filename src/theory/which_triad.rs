//! The two triads of a pair.

use crate::{PitchClass, Triad, TriadPair};

/// Which of the two triads of a pair.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum WhichTriad {
    /// The triad named first.
    First,
    /// The triad named second.
    Second,
}

impl WhichTriad {
    /// Both, the first one first.
    pub const BOTH: [WhichTriad; 2] = [WhichTriad::First, WhichTriad::Second];

    /// That triad of a pair.
    #[must_use]
    pub const fn triad_of(self, pair: TriadPair) -> Triad {
        match self {
            WhichTriad::First => pair.first(),
            WhichTriad::Second => pair.second(),
        }
    }

    /// The other one.
    #[must_use]
    pub const fn other(self) -> WhichTriad {
        match self {
            WhichTriad::First => WhichTriad::Second,
            WhichTriad::Second => WhichTriad::First,
        }
    }

    /// The triad that a note belongs to; `None` where the pair does not have it.
    #[must_use]
    pub fn with(pair: TriadPair, class: PitchClass) -> Option<WhichTriad> {
        WhichTriad::BOTH.into_iter().find(|which| which.triad_of(pair).set().contains(class))
    }
}
