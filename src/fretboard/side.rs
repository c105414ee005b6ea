//! The two triads of a pair.

use fretloom_theory::{Pitch, Triad, TriadPair};

/// Which of the two triads of a pair.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Side {
    /// The triad named first.
    First,
    /// The triad named second.
    Second,
}

impl Side {
    /// Both, the first one first.
    pub(crate) const BOTH: [Side; 2] = [Side::First, Side::Second];

    /// That triad of a pair.
    pub(crate) const fn triad_of(self, pair: TriadPair) -> Triad {
        match self {
            Side::First => pair.first(),
            Side::Second => pair.second(),
        }
    }

    /// The triad that a pitch belongs to; `None` where the pair does not have it.
    pub(crate) fn with(pair: TriadPair, pitch: Pitch) -> Option<Side> {
        let class = pitch.pitch_class();
        Side::BOTH.into_iter().find(|side| side.triad_of(pair).set().contains(class))
    }
}
