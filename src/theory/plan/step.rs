//! From one pair to the next.

use super::weights::PlanCost;
use crate::TriadPair;

/// How a pair comes from the one before it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PairStep {
    /// It is the same pair.
    Kept,
    /// It is the same pair by so many semitones higher, two at most; lower ones are negative. The
    /// same grips do.
    Moved(i8),
    /// It is another pair.
    Changed {
        /// How many of its notes were there before.
        common: u8,
        /// How many others a half step leads to.
        half_steps: u8,
    },
}

/// By how many semitones a pair is moved and still lies under the hand, the nearest first.
const MOVES: [i8; 4] = [1, -1, 2, -2];

impl PairStep {
    /// The step between two pairs.
    ///
    /// ```
    /// use fretloom_theory::{PairStep, SpelledTriad, TriadPair};
    /// let pair = |names: [&str; 2]| {
    ///     let [one, other] = names.map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    ///     TriadPair::in_order(one, other).unwrap()
    /// };
    /// let step = |to| PairStep::between(pair(["F", "G"]), pair(to));
    /// assert_eq!(step(["G", "F"]), PairStep::Kept);
    /// assert_eq!(step(["Gb", "Ab"]), PairStep::Moved(1));
    /// assert_eq!(step(["C", "Dm"]), PairStep::Changed { common: 5, half_steps: 1 });
    /// ```
    #[must_use]
    pub fn between(from: TriadPair, to: TriadPair) -> PairStep {
        if from.is_same_couple(to) {
            return PairStep::Kept;
        }
        let moves = |by: &i8| from.up(i32::from(*by)).is_same_couple(to);
        if let Some(by) = MOVES.into_iter().find(moves) {
            return PairStep::Moved(by);
        }
        let (before, new) = (from.set(), to.set().difference(from.set()));
        let beside = before.transposed(1).union(before.transposed(-1));
        let common = to.set().intersection(before).len() as u8;
        PairStep::Changed { common, half_steps: new.intersection(beside).len() as u8 }
    }

    /// What it costs, whatever chord it leads to.
    pub(super) fn cost(self) -> PlanCost {
        match self {
            PairStep::Kept => PlanCost::ZERO,
            PairStep::Moved(_) => PlanCost::MOVE,
            PairStep::Changed { common, half_steps } => {
                let new = 6_usize.saturating_sub(usize::from(common));
                let leaps = new.saturating_sub(usize::from(half_steps));
                PlanCost::CHANGE + PlanCost::NEW_NOTE.times(new) + PlanCost::LEAP.times(leaps)
            }
        }
    }
}
