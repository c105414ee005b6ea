//! The two triads of a pair.

use fretloom_theory::{Pitch, Triad, TriadPair};

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
    pub(crate) const BOTH: [WhichTriad; 2] = [WhichTriad::First, WhichTriad::Second];

    /// That triad of a pair.
    pub(crate) const fn triad_of(self, pair: TriadPair) -> Triad {
        match self {
            WhichTriad::First => pair.first(),
            WhichTriad::Second => pair.second(),
        }
    }

    /// The triad that a pitch belongs to; `None` where the pair does not have it.
    pub(crate) fn with(pair: TriadPair, pitch: Pitch) -> Option<WhichTriad> {
        let class = pitch.pitch_class();
        WhichTriad::BOTH.into_iter().find(|which| which.triad_of(pair).set().contains(class))
    }
}
