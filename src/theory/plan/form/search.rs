//! The cheapest way through a form.
//!
//! Chord by chord the search keeps what the cheapest way to each spot costs. Going round, the last
//! chord leads to the first; so it is made from spots of the chord that has the fewest, those first
//! that promise most, until none can be cheaper than what has been found.

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
        let mut starts: Vec<(PlanCost, usize)> =
            self.at_least(own, first).into_iter().zip(0..own[first].len()).collect();
        starts.retain(|(bound, _)| *bound < PlanCost::FORBIDDEN);
        starts.sort_unstable();
        let most = (MOST_STEPS / self.steps().max(1)).max(1);
        let mut best: Option<(PlanCost, usize, usize, Sweep)> = None;
        for (tried, (bound, start)) in starts.into_iter().enumerate() {
            if best.as_ref().is_some_and(|(cost, ..)| bound > *cost) {
                break;
            }
            let start = if tried == most { self.meeting(own, first)? } else { start };
            if let Some((cost, last, sweep)) = self.round_from(own, first, start) {
                let is_better =
                    best.as_ref().is_none_or(|known| (cost, start) < (known.0, known.1));
                if is_better {
                    best = Some((cost, start, last, sweep));
                }
            }
            if tried == most {
                break;
            }
        }
        let (cost, _, last, sweep) = best?;
        Some((cost, self.walked_back(own, &sweep, last)))
    }

    /// What a round from each spot of a chord costs at least: what it costs to go on from there until
    /// the chord comes again, by whichever spot.
    fn at_least(&self, own: &Own, first: usize) -> Vec<PlanCost> {
        let count = own.len();
        let mut onward = vec![PlanCost::ZERO; own[first].len()];
        for further in (1..=count).rev() {
            let (chord, is_home) = ((first + further) % count, further == count);
            let wide = own[self.before(chord)].len();
            let mut before = vec![PlanCost::FORBIDDEN; wide];
            for (spot, onward) in onward.iter().enumerate() {
                let here = if is_home { PlanCost::ZERO } else { own[chord][spot] };
                for (least, step) in before.iter_mut().zip(self.row(chord, spot)) {
                    *least = (*least).min(*step + here + *onward);
                }
            }
            onward = before;
        }
        onward.iter().zip(&own[first]).map(|(onward, own)| *onward + *own).collect()
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
