//! The scales in which a line may be heard over a chord.

use std::rc::Rc;

use crate::{Chord, ChordSymbol, PitchClassSet, Reading, Scale, Score};

/// What a line is heard against over a chord: its scales, the usual one where it stands first.
///
/// The chromatic scale is not among them: it fits every chord and would hold every pair.
#[derive(Clone, Debug)]
pub(super) struct Ground {
    pub(super) chord: Chord,
    pub(super) scales: Rc<[Scale]>,
}

/// How many readings are remembered; tunes have fewer chords than this.
const REMEMBERED: usize = 64;

impl Ground {
    /// Those of the chords of a score, in order, symbols that name no chord left out.
    pub(super) fn all(score: &Score) -> Vec<Ground> {
        let symbols = score.chords.changes().iter().map(|(_, symbol)| symbol);
        let chords: Vec<Chord> = symbols.filter_map(ChordSymbol::chord).cloned().collect();
        let mut known: Vec<(Reading, Rc<[Scale]>)> = Vec::new();
        let readings = Reading::tune(&chords, None).into_iter();
        readings
            .zip(chords)
            .map(|(reading, chord)| {
                let scales = match known.iter().position(|(other, _)| *other == reading) {
                    Some(at) => Rc::clone(&known[at].1),
                    None => {
                        let scales = scales(&reading);
                        known.truncate(REMEMBERED - 1);
                        known.insert(0, (reading, Rc::clone(&scales)));
                        scales
                    }
                };
                Ground { chord, scales }
            })
            .collect()
    }

    /// The first scale that holds all of these notes, and how many stand before it.
    pub(super) fn holding(&self, notes: PitchClassSet) -> Option<(usize, &Scale)> {
        self.scales.iter().enumerate().find(|(_, scale)| notes.is_subset(scale.set()))
    }
}

fn scales(reading: &Reading) -> Rc<[Scale]> {
    let choices = reading.scales();
    let scales = choices.iter().map(|choice| choice.scale());
    scales.filter(|scale| scale.set() != PitchClassSet::CHROMATIC).cloned().collect()
}
