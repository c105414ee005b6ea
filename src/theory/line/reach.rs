//! The notes that a line may use.

use crate::{Pitch, PitchClassSet};

/// The pitches that a line may use: those for notes of a pair, and those for free notes.
///
/// Whoever knows strings and frets says what they are. Each is a set of MIDI numbers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Reach {
    pair: u128,
    free: u128,
}

impl Reach {
    /// These pitches for notes of a pair, and these and the others for free notes.
    #[must_use]
    pub fn new(
        pair: impl IntoIterator<Item = Pitch>,
        free: impl IntoIterator<Item = Pitch>,
    ) -> Reach {
        let set = |pitches: &mut dyn Iterator<Item = Pitch>| pitches.fold(0, |set, p| set | bit(p));
        let pair = set(&mut pair.into_iter());
        Reach { pair, free: pair | set(&mut free.into_iter()) }
    }

    /// Every pitch from one MIDI number to another.
    #[must_use]
    pub fn between(lowest: u8, highest: u8) -> Reach {
        let pitches = (lowest..=highest.min(127)).filter_map(Pitch::from_midi);
        Reach::new(pitches, [])
    }

    /// May a note of a pair be there?
    pub(super) fn holds(&self, pitch: Pitch) -> bool {
        self.pair & bit(pitch) != 0
    }

    /// May a free note be there?
    pub(crate) fn holds_free(&self, pitch: Pitch) -> bool {
        self.free & bit(pitch) != 0
    }

    /// The pitches for notes of a pair, from the lowest up.
    pub fn pitches(&self) -> impl DoubleEndedIterator<Item = Pitch> + '_ {
        (0..=127).filter_map(Pitch::from_midi).filter(|pitch| self.holds(*pitch))
    }

    /// The pitches for free notes that belong to a set, from the lowest up.
    pub(crate) fn free_in(&self, set: PitchClassSet) -> impl DoubleEndedIterator<Item = Pitch> {
        let all = (0..=127).filter_map(Pitch::from_midi);
        all.filter(move |pitch| self.holds_free(*pitch) && set.contains(pitch.pitch_class()))
    }
}

const fn bit(pitch: Pitch) -> u128 {
    1 << pitch.midi()
}
