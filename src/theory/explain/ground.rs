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
    /// How many of them players reach for; these stand first.
    pub(super) usual: usize,
}

/// How many readings are remembered; tunes have fewer chords than this.
const REMEMBERED: usize = 64;

impl Ground {
    /// Those of the chords of a score, in order, symbols that name no chord left out.
    pub(super) fn all(score: &Score) -> Vec<Ground> {
        let symbols = score.chords.changes().iter().map(|(_, symbol)| symbol);
        let chords: Vec<Chord> = symbols.filter_map(ChordSymbol::chord).cloned().collect();
        let mut known: Vec<(Reading, Scales)> = Vec::new();
        let mut remember = |reading: Reading| match known.iter().find(|(one, _)| *one == reading) {
            Some((_, scales)) => scales.clone(),
            None => {
                let scales = scales(&reading);
                known.truncate(REMEMBERED - 1);
                known.insert(0, (reading, scales.clone()));
                scales
            }
        };
        let readings = Reading::tune(&chords, None).into_iter();
        let ground = |(reading, chord)| {
            let (scales, usual) = remember(reading);
            Ground { chord, scales, usual }
        };
        readings.zip(chords).map(ground).collect()
    }

    /// The first scale that holds all of these notes, and how many stand before it.
    pub(super) fn holding(&self, notes: PitchClassSet) -> Option<(usize, &Scale)> {
        self.scales.iter().enumerate().find(|(_, scale)| notes.is_subset(scale.set()))
    }
}

/// Scales, and how many of them are usual.
type Scales = (Rc<[Scale]>, usize);

fn scales(reading: &Reading) -> Scales {
    let mut choices = reading.scales();
    choices.retain(|choice| choice.scale().set() != PitchClassSet::CHROMATIC);
    // A reading may put one that merely fits before a usual one.
    choices.sort_by_key(|choice| !choice.is_usual());
    let usual = choices.iter().filter(|choice| choice.is_usual()).count();
    (choices.iter().map(|choice| choice.scale().clone()).collect(), usual)
}
