//! What a line says of its own notes.

use crate::{Pitch, Quarters, TriadPair, WhichTriad};

/// Whose note it is, as a line says that was made of pairs.
///
/// It is a claim and no fact: a file may say anything. [`Explanation::of_made`](super::Explanation::of_made)
/// takes it up where the notes agree.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct MadeNote {
    /// The pair.
    pub pair: TriadPair,
    /// Which of its triads.
    pub which: WhichTriad,
    /// The phrase that it is of. It and the group together tell groups apart.
    pub phrase: usize,
    /// The group of the phrase.
    pub group: usize,
    /// When the chord sounds that it speaks: where it begins, or later where it comes early.
    pub speaks: Quarters,
}

impl MadeNote {
    /// Does its triad have what sounds?
    pub(super) fn agrees(&self, pitch: Pitch) -> bool {
        self.which.triad_of(self.pair).set().contains(pitch.pitch_class())
    }

    /// Do both say that they are of one pair, whatever its triads are called?
    pub(super) fn is_of_pair_of(&self, other: &MadeNote) -> bool {
        sounds_alike(self.pair, other.pair)
    }

    /// Do both say that they are of one group?
    pub(super) fn is_of_group_of(&self, other: &MadeNote) -> bool {
        // A pedal of the other triad may lie within a group.
        let group = |made: &MadeNote| (made.phrase, made.group, made.which);
        group(self) == group(other)
    }
}

/// Are they the same two triads by sound, in whichever order?
pub(super) fn sounds_alike(one: TriadPair, other: TriadPair) -> bool {
    let [first, second] = one.triads().map(|triad| triad.set());
    let others = other.triads().map(|triad| triad.set());
    others == [first, second] || others == [second, first]
}
