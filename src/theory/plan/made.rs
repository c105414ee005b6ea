//! A plan that was made.

use super::step::PairStep;
use super::weights::PlanCost;
use super::why::PlanReason;
use crate::{ChordScale, PairSound, TriadPair};

/// The scale and the pair of every chord of a form. Made by a [`PlanQuery`](crate::PlanQuery).
///
/// # Example
///
/// ```
/// use fretloom_theory::{Chord, PlanChord, PlanQuery, Reading};
/// let symbols = ["Dm7", "G7", "Cmaj7", "Cmaj7"];
/// let chords: Vec<Chord> = symbols.iter().map(|symbol| symbol.parse().unwrap()).collect();
/// let form = Reading::tune(&chords, None).into_iter().map(|reading| PlanChord::of(reading, 1.0));
/// let plan = PlanQuery::over(form).plan().unwrap();
/// assert_eq!(plan.chords().len(), 4);
/// assert!(plan.chords()[2].sound().states_third()); // the line rests there
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    pub(super) chords: Vec<PlannedChord>,
    pub(super) cost: PlanCost,
}

/// What a plan plays over one chord.
#[derive(Clone, PartialEq, Debug)]
pub struct PlannedChord {
    pub(super) over: ChordScale,
    pub(super) sound: PairSound,
    pub(super) place: Option<usize>,
    pub(super) step: Option<PairStep>,
    pub(super) cost: PlanCost,
    pub(super) why: PlanReason,
}

impl Plan {
    /// What is played over each chord, in the order of the form.
    #[must_use]
    pub fn chords(&self) -> &[PlannedChord] {
        &self.chords
    }

    /// What it costs: the sum over its chords.
    #[must_use]
    pub fn cost(&self) -> PlanCost {
        self.cost
    }

    /// The pairs in use, each once, in the order in which they come.
    #[must_use]
    pub fn pairs(&self) -> Vec<TriadPair> {
        let mut pairs: Vec<TriadPair> = Vec::new();
        for chord in &self.chords {
            if !pairs.iter().any(|known| known.is_same_couple(chord.pair())) {
                pairs.push(chord.pair());
            }
        }
        pairs
    }

    /// Over how many chords the other plan has another pair.
    #[must_use]
    pub fn differences(&self, other: &Plan) -> usize {
        let both = self.chords.iter().zip(&other.chords);
        both.filter(|(one, other)| !one.pair().is_same_couple(other.pair())).count()
    }
}

impl PlannedChord {
    /// The chord with its scale.
    #[must_use]
    pub fn over(&self) -> &ChordScale {
        &self.over
    }

    /// The pair.
    #[must_use]
    pub fn pair(&self) -> TriadPair {
        self.sound.pair()
    }

    /// What the pair says over the chord.
    #[must_use]
    pub fn sound(&self) -> &PairSound {
        &self.sound
    }

    /// In which of the pair's [places](crate::PairPlaces) it is played, where the plan keeps to some.
    #[must_use]
    pub fn place(&self) -> Option<usize> {
        self.place
    }

    /// How the pair comes from that of the chord before; that of the first chord from the last, or from
    /// none where the form is played once.
    #[must_use]
    pub fn step(&self) -> Option<PairStep> {
        self.step
    }

    /// What the chord costs the plan: its choice, and the way to it.
    #[must_use]
    pub fn cost(&self) -> PlanCost {
        self.cost
    }

    /// Why the pair is there.
    #[must_use]
    pub fn why(&self) -> &PlanReason {
        &self.why
    }
}
