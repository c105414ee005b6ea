//! The cheapest way through a line: exact dynamic programming from its end to its beginning.

use std::ops::Range;

use super::choices::{Choices, Ends};
use super::condition::FingeringCondition;
use super::cost::Cost;
use super::fingered_line::Fingering;
use super::fingered_note::FingeredNote;
use super::hurry::Hurry;
use super::onset::Onset;

/// For every onset and every way to leave it, what the line after it costs at least.
///
/// The work is one step an onset, so time and memory grow with the length of the line and no
/// faster. Since the cost to go is exact, [`cheapest`](super::cheapest) lists further paths without
/// trying one in vain.
pub(super) struct CostToGo<'a> {
    onsets: &'a [Onset],
    cost: &'a Cost,
    /// By onset, by exit.
    to_go: Vec<Box<[f64]>>,
}

impl<'a> CostToGo<'a> {
    pub(super) fn new(onsets: &'a [Onset], cost: &'a Cost) -> CostToGo<'a> {
        let mut to_go: Vec<Box<[f64]>> = Vec::with_capacity(onsets.len());
        for (index, onset) in onsets.iter().enumerate().rev() {
            let here: Box<[f64]> = match (onsets.get(index + 1), to_go.last()) {
                (Some(next), Some(after)) => {
                    let entries = Entries::new(&next.choices, after);
                    let hurry = Hurry::within_s(next.at_s - onset.at_s);
                    entries.least_after(onset.choices.exits(), cost, hurry)
                }
                _ => vec![0.0; onset.choices.exits().notes().len()].into(),
            };
            to_go.push(here);
        }
        to_go.reverse();
        CostToGo { onsets, cost, to_go }
    }

    /// What choice `index` of onset `at` costs with all that follows it at best.
    pub(super) fn from(&self, at: usize, index: usize) -> f64 {
        let choices = &self.onsets[at].choices;
        choices.cost(index) + self.after(at, index)
    }

    /// What follows choice `index` of onset `at` at best.
    pub(super) fn after(&self, at: usize, index: usize) -> f64 {
        self.to_go[at][self.onsets[at].choices.exit(index)]
    }

    /// The cost of going from one choice of onset `at` to one of the next onset.
    pub(super) fn between(&self, at: usize, from: usize, to: usize) -> f64 {
        step_cost(self.cost, (&self.onsets[at], from), (&self.onsets[at + 1], to))
    }

    /// The fingering that a path makes.
    pub(super) fn fingering(&self, path: &[usize], condition: FingeringCondition) -> Fingering {
        Fingering::new(self.onsets, path, total(self.onsets, self.cost, path), condition)
    }

    /// The cheapest path: the choice to take at each onset. Of equal ones the first: the places come
    /// in the order of the strings, and at a place the most natural finger first.
    pub(super) fn best(&self) -> Vec<usize> {
        let mut path: Vec<usize> = Vec::with_capacity(self.onsets.len());
        for (at, onset) in self.onsets.iter().enumerate() {
            let so_far = path.last().copied();
            let total = |choice: usize| {
                let come = so_far.map_or(0.0, |from| self.between(at - 1, from, choice));
                come + self.from(at, choice)
            };
            path.extend(cheapest_of((0..onset.choices.len()).map(total)));
        }
        path
    }
}

/// What the path that takes choice `path[i]` at onset `i` costs.
pub(super) fn total(onsets: &[Onset], cost: &Cost, path: &[usize]) -> f64 {
    let mut sum = 0.0;
    let mut before: Option<(&Onset, usize)> = None;
    for (onset, &choice) in onsets.iter().zip(path) {
        sum += onset.choices.cost(choice);
        if let Some((last, from)) = before {
            sum += step_cost(cost, (last, from), (onset, choice));
        }
        before = Some((onset, choice));
    }
    sum
}

fn step_cost(cost: &Cost, (here, from): (&Onset, usize), (next, to): (&Onset, usize)) -> f64 {
    let hurry = Hurry::within_s(next.at_s - here.at_s);
    let exit = here.choices.exits().notes()[here.choices.exit(from)];
    let entry = next.choices.entries().notes()[next.choices.entry(to)];
    cost.between(exit, entry, hurry)
}

/// By how much two costs may differ, near this one, and be equal. Costs are sums of floats: what is
/// equal comes out unequal by its last bits when it is added up in another order, and nothing a
/// player feels may hang on these.
pub(super) fn tolerance(cost: f64) -> f64 {
    1e-6 + cost.abs() * 1e-14
}

/// Which of the costs is the least; of equal ones the first.
pub(super) fn cheapest_of(costs: impl Iterator<Item = f64> + Clone) -> Option<usize> {
    let least = costs.clone().fold(f64::INFINITY, f64::min);
    costs.into_iter().position(|cost| cost <= least + tolerance(least))
}

/// The ways into an onset, each with the least that it and everything after it costs.
struct Entries<'a> {
    ends: &'a Ends,
    to_go: Vec<f64>,
    /// The least of them for each position of the hand.
    leasts: Vec<f64>,
}

impl<'a> Entries<'a> {
    fn new(choices: &'a Choices, after: &[f64]) -> Entries<'a> {
        let ends = choices.entries();
        let mut to_go = vec![f64::INFINITY; ends.notes().len()];
        for index in 0..choices.len() {
            let total = choices.cost(index) + after[choices.exit(index)];
            let least = &mut to_go[choices.entry(index)];
            *least = least.min(total);
        }
        let least = |range: &Range<usize>| {
            to_go[range.clone()].iter().copied().fold(f64::INFINITY, f64::min)
        };
        let leasts = ends.positions().iter().map(|(_, range)| least(range)).collect();
        Entries { ends, to_go, leasts }
    }

    /// For each exit of the onset before, the least that everything after it costs.
    fn least_after(&self, exits: &Ends, cost: &Cost, hurry: Hurry) -> Box<[f64]> {
        let mut all = Vec::with_capacity(exits.notes().len());
        let mut travels = Vec::with_capacity(self.leasts.len());
        for (position, range) in exits.positions() {
            let positions = self.ends.positions().iter();
            travels.clear();
            travels.extend(positions.map(|(to, _)| cost.travel(*position, *to, hurry)));
            let stays = self.ends.positions().iter().position(|(to, _)| to == position);
            let notes = exits.notes()[range.clone()].iter();
            all.extend(notes.map(|exit| {
                // Where the hand stays is looked at first: it is most often the least.
                let mut least = stays.map_or(f64::INFINITY, |position| {
                    self.least_in(position, 0.0, f64::INFINITY, |entry| {
                        cost.between(*exit, entry, hurry)
                    })
                });
                for (position, travel) in travels.iter().enumerate() {
                    if self.leasts[position] + travel < least && Some(position) != stays {
                        least = self.least_in(position, *travel, least, |entry| {
                            cost.between(*exit, entry, hurry)
                        });
                    }
                }
                least
            }));
        }
        all.into()
    }

    /// The least of `least` and what comes of going in with the hand in one position. An entry is
    /// passed over when getting the hand there alone would already cost more.
    fn least_in(
        &self,
        position: usize,
        travel: f64,
        least: f64,
        between: impl Fn(FingeredNote) -> f64,
    ) -> f64 {
        let range = self.ends.positions()[position].1.clone();
        let entries = self.ends.notes()[range.clone()].iter().zip(&self.to_go[range]);
        entries.fold(least, |least, (entry, to_go)| {
            if to_go + travel < least { least.min(to_go + between(*entry)) } else { least }
        })
    }
}
