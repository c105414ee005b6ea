//! A form as the search sees it: spots for each chord, ways between them, and what all that costs.

mod differing;
mod few;
mod search;
mod through;

use std::collections::HashMap;
use std::rc::Rc;

use super::weights::{Count, PlanCost};

/// Does the last chord lead to the first?
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Round {
    Closed,
    Open,
}

/// A choice over a chord, and where it is played.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Spot {
    pub(super) choice: usize,
    pub(super) place: Option<usize>,
}

/// The spots of a chord with what each costs.
pub(super) struct FormChord {
    pub(super) spots: Vec<Spot>,
    /// Which of the pairs of the form each of them plays.
    pub(super) pairs: Vec<usize>,
    pub(super) own: Vec<Count>,
    /// The first chord of the form that has the same spots and is reached at the same cost.
    pub(super) alike: usize,
}

/// A form: its chords, and what the ways between their spots cost.
pub(super) struct Form {
    chords: Vec<FormChord>,
    /// To each chord from the one before it: a row for each spot it leads to.
    steps: Vec<Rc<[Count]>>,
    round: Round,
}

/// A way through a form: a spot for each chord, by index.
pub(super) type Way = Vec<usize>;

/// What each spot of each chord costs; more than anything where it may not be taken.
type Own = Vec<Vec<Count>>;

impl Form {
    /// A form of at least one chord. `steps` is asked for the chord that they lead to, with the spots
    /// of the chord before and those of this one; it gives a row for each of these.
    pub(super) fn new(
        chords: Vec<FormChord>,
        round: Round,
        steps: impl Fn(usize, [&[Spot]; 2]) -> Vec<Count>,
    ) -> Form {
        let mut known: HashMap<[usize; 2], Rc<[Count]>> = HashMap::new();
        let count = chords.len();
        let steps_to = |index: usize| {
            let (chord, before) = (&chords[index], &chords[(index + count - 1) % count]);
            let all = || steps(index, [&before.spots, &chord.spots]).into();
            Rc::clone(known.entry([before.alike, chord.alike]).or_insert_with(all))
        };
        let steps = (0..count).map(steps_to).collect();
        Form { chords, steps, round }
    }

    pub(super) fn spot(&self, chord: usize, index: usize) -> Spot {
        self.chords[chord].spots[index]
    }

    /// The spots of a chord that play one of some pairs.
    pub(super) fn spots_of(&self, chord: usize, pairs: &[usize]) -> impl Iterator<Item = Spot> {
        let chord = &self.chords[chord];
        let both = chord.spots.iter().zip(&chord.pairs);
        both.filter(|(_, pair)| pairs.contains(pair)).map(|(spot, _)| *spot)
    }

    /// What the step to a chord costs on a way.
    pub(super) fn step_on(&self, way: &Way, chord: usize) -> PlanCost {
        if chord == 0 && self.round == Round::Open {
            return PlanCost::ZERO;
        }
        let before = self.before(chord);
        PlanCost::counted(self.row(chord, way[chord])[way[before]])
    }

    fn before(&self, chord: usize) -> usize {
        (chord + self.chords.len() - 1) % self.chords.len()
    }

    /// What the steps to a spot cost, from each spot of the chord before.
    fn row(&self, chord: usize, spot: usize) -> &[Count] {
        let wide = self.chords[self.before(chord)].spots.len();
        &self.steps[chord][spot * wide..][..wide]
    }

    /// Is it the same pair that two spots of a chord play?
    fn is_same(&self, chord: usize, one: usize, other: usize) -> bool {
        let pairs = &self.chords[chord].pairs;
        pairs[one] == pairs[other]
    }
}
