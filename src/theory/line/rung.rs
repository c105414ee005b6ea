//! Rungs: the inversions of both triads, by height.

use crate::{Figure, Figures, Inversion, Pitch, Triad, TriadPair, WhichTriad};

/// An inversion of a triad of the pair at a height: which one, and its lowest note.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Rung {
    pub(super) which: WhichTriad,
    pub(super) bass: Pitch,
}

impl Rung {
    /// Every inversion of a triad, from the lowest up.
    pub(super) fn all(
        pair: TriadPair,
        which: WhichTriad,
    ) -> impl DoubleEndedIterator<Item = Rung> + Clone {
        let set = which.triad_of(pair).set();
        let basses = (0..=127).filter_map(Pitch::from_midi);
        basses
            .filter(move |bass| set.contains(bass.pitch_class()))
            .map(move |bass| Rung { which, bass })
    }

    /// The note that a figure counts.
    pub(super) fn note(self, pair: TriadPair, figure: Figure) -> Option<Pitch> {
        let above = above(self.which.triad_of(pair), self.bass);
        let steps = figure.steps_up();
        let within = above[steps.rem_euclid(3) as usize];
        self.bass.up(within + 12 * steps.div_euclid(3))
    }

    /// The notes of figures that sound together, from the lowest up.
    pub(super) fn notes(
        self,
        pair: TriadPair,
        figures: Figures,
    ) -> impl Iterator<Item = Option<Pitch>> {
        figures.iter().map(move |figure| self.note(pair, figure))
    }

    /// Which inversion it is; of an augmented triad by its name.
    pub(super) fn inversion(self, pair: TriadPair) -> Option<Inversion> {
        let members = self.which.triad_of(pair).members();
        let is_bass = |(member, _): &(_, _)| *member == self.bass.pitch_class();
        members.into_iter().zip(Inversion::ALL).find(is_bass).map(|(_, inversion)| inversion)
    }
}

/// Semitones of the three members above the lowest, which is one of them.
fn above(triad: Triad, bass: Pitch) -> [i32; 3] {
    let from = bass.pitch_class();
    let mut above = triad.members().map(|member| i32::from(from.semitones_up_to(member)));
    above.sort_unstable();
    above
}
