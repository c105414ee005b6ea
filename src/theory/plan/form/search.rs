//! The cheapest way through a form.
//!
//! Chord by chord the search keeps what the cheapest way to each spot costs. Going round, the last
//! chord leads to the first; so it is made for each spot of the chord that has the fewest.

use super::{Form, Own, Round, Way};
use crate::PlanCost;

/// The most steps from spot to spot that going round exactly may take.
const MOST_STEPS: usize = 40_000_000;

/// What the cheapest way to each spot costs, chord by chord from a first one.
struct Sweep {
    first: usize,
    costs: Vec<Vec<PlanCost>>,
}

impl Form {
    /// The cheapest way; of equal ones that with the earlier spots. `None` where a chord has none that
    /// is allowed.
    pub(super) fn cheapest(&self, own: &Own) -> Option<(PlanCost, Way)> {
        let (cost, way) = match self.round {
            Round::Open => self.once(own),
            Round::Closed => self.round(own),
        }?;
        (cost < PlanCost::FORBIDDEN).then_some((cost, way))
    }

    fn once(&self, own: &Own) -> Option<(PlanCost, Way)> {
        let sweep = self.sweep(own, 0, own.first()?.clone(), own.len());
        let (cost, last) = cheapest_of(sweep.costs.last()?.iter().copied())?;
        Some((cost, self.walked_back(own, &sweep, last)))
    }

    fn round(&self, own: &Own) -> Option<(PlanCost, Way)> {
        let allowed =
            |chord: usize| own[chord].iter().filter(|cost| **cost < PlanCost::FORBIDDEN).count();
        let first = (0..own.len()).min_by_key(|chord| allowed(*chord))?;
        let is_short = allowed(first).saturating_mul(self.steps()) <= MOST_STEPS;
        let starts = match is_short {
            true => (0..own[first].len()).collect(),
            false => vec![self.meeting(own, first)?],
        };
        let from = |start: usize| self.round_from(own, first, start);
        let rounds = starts.into_iter().filter(|start| own[first][*start] < PlanCost::FORBIDDEN);
        let (cost, last, sweep) = rounds.filter_map(from).min_by_key(|(cost, ..)| *cost)?;
        Some((cost, self.walked_back(own, &sweep, last)))
    }

    /// How many steps from spot to spot a round has.
    fn steps(&self) -> usize {
        self.steps.iter().map(|steps| steps.len()).sum()
    }

    /// The cheapest round from a spot to itself: what it costs, and the last spot before.
    fn round_from(
        &self,
        own: &Own,
        first: usize,
        start: usize,
    ) -> Option<(PlanCost, usize, Sweep)> {
        let mut costs = vec![PlanCost::FORBIDDEN; own[first].len()];
        costs[start] = own[first][start];
        let sweep = self.sweep(own, first, costs, own.len());
        let home = self.row(first, start).iter();
        let ends = sweep.costs.last()?.iter().zip(home).map(|(cost, step)| *cost + *step);
        let (cost, last) = cheapest_of(ends)?;
        Some((cost, last, sweep))
    }

    /// Where the second of two rounds begins on the cheapest way through both.
    fn meeting(&self, own: &Own, first: usize) -> Option<usize> {
        let twice = 2 * own.len() + 1;
        let sweep = self.sweep(own, first, own[first].clone(), twice);
        let (_, last) = cheapest_of(sweep.costs.last()?.iter().copied())?;
        let spots = self.spots_back(own, &sweep, last);
        spots.get(own.len()).copied()
    }

    /// What the cheapest ways cost over so many chords from a first one.
    fn sweep(&self, own: &Own, first: usize, costs: Vec<PlanCost>, chords: usize) -> Sweep {
        let mut all = Vec::with_capacity(chords);
        all.push(costs);
        for further in 1..chords {
            let chord = (first + further) % own.len();
            let before = &all[further - 1];
            let reached = |(spot, own): (usize, &PlanCost)| {
                let steps = self.row(chord, spot).iter().zip(before);
                let least = steps.map(|(step, cost)| *cost + *step).min();
                least.map_or(PlanCost::FORBIDDEN, |least| least + *own)
            };
            all.push(own[chord].iter().enumerate().map(reached).collect());
        }
        Sweep { first, costs: all }
    }

    /// The way of a sweep that ends in a spot, in the order of the form.
    fn walked_back(&self, own: &Own, sweep: &Sweep, last: usize) -> Way {
        let spots = self.spots_back(own, sweep, last);
        let count = own.len();
        (0..count).map(|chord| spots[(chord + count - sweep.first) % count]).collect()
    }

    /// The spots of a sweep that ends in one, in its own order.
    fn spots_back(&self, own: &Own, sweep: &Sweep, last: usize) -> Vec<usize> {
        let mut spots = vec![last; sweep.costs.len()];
        for further in (1..spots.len()).rev() {
            let chord = (sweep.first + further) % own.len();
            let before = &sweep.costs[further - 1];
            let steps = self.row(chord, spots[further]).iter().zip(before);
            let from = cheapest_of(steps.map(|(step, cost)| *cost + *step));
            spots[further - 1] = from.map_or(0, |(_, from)| from);
        }
        spots
    }
}

/// The least cost and where it is; of equal ones the first.
fn cheapest_of(costs: impl Iterator<Item = PlanCost>) -> Option<(PlanCost, usize)> {
    costs.enumerate().map(|(index, cost)| (cost, index)).min()
}
