//! What there is to choose from over the chord in hand: its scales, and the pairs of the scale in force.

use fretloom_theory::{ChordScale, Reading, ScaleChoice, Spelling};

use crate::answer::{ChangesChord, PairList};
use crate::tui::shared::Shared;

/// The scales of a chord and the pairs of the one that is played over it.
///
/// They are found when the chord comes to hand, and stay as long as it has that scale.
pub(super) struct Choices {
    /// What they follow from.
    of: (Reading, ChordScale, Spelling),
    /// The usual one first.
    pub(super) scales: Vec<ScaleChoice>,
    /// The first one first; what each says is worked out when it comes into view.
    pub(super) pairs: PairList,
}

impl Choices {
    /// Those of this chord: the ones that are known, if they are of it.
    pub(super) fn of(chord: &ChangesChord, known: Option<Choices>, shared: &Shared) -> Choices {
        known.filter(|known| known.are_of(chord)).unwrap_or_else(|| Choices {
            of: (chord.reading.clone(), chord.over().clone(), chord.spelling()),
            scales: chord.scales(shared.library.scales.kinds()),
            pairs: chord.pair_list(),
        })
    }

    /// Are they those of this chord?
    pub(super) fn are_of(&self, chord: &ChangesChord) -> bool {
        let (reading, over, spelling) = &self.of;
        *reading == chord.reading && over == chord.over() && *spelling == chord.spelling()
    }

    /// Which of the scales is played over the chord; none where it is another.
    pub(super) fn scale_of(&self, chord: &ChangesChord) -> Option<usize> {
        self.scales.iter().position(|choice| choice.scale() == chord.over().scale())
    }

    /// Which of the pairs is played over it; none where it is another.
    pub(super) fn pair_of(&self, chord: &ChangesChord) -> Option<usize> {
        let pair = chord.pair.pair();
        (0..self.pairs.len())
            .find(|index| self.pairs.pair(*index).is_some_and(|listed| listed.is_same_couple(pair)))
    }
}
