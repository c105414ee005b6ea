//! How one chord goes to the next: the way from root to root, and which chords pull.

use crate::{Chord, Degree};

/// Semitones from the root of one chord up to that of another.
pub(super) fn up_to(from: &Chord, to: &Chord) -> u8 {
    from.root().pitch_class().semitones_up_to(to.root().pitch_class())
}

/// Does the root fall a fifth to the next chord?
pub(super) fn resolves_to(chord: &Chord, next: &Chord) -> bool {
    up_to(chord, next) == 5
}

/// Is it a dominant seventh: a minor seventh over a major third or a suspended fourth?
pub(super) fn is_dominant(chord: &Chord) -> bool {
    let suspended = chord.names(Degree::FOURTH) && chord.names(Degree::MINOR_SEVENTH);
    chord.is_dominant() || suspended
}

/// Is the next chord a dominant a fifth below, with its third or, after a chord that has its own, without?
pub(super) fn is_chain(chord: &Chord, next: &Chord) -> bool {
    let goes_on = next.is_dominant() || is_dominant(next) && !chord.is_sus();
    resolves_to(chord, next) && goes_on
}
