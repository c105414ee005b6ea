//! The cheapest way through a line: exact dynamic programming from its end to its beginning.

use std::ops::Range;

use super::cost::{Cost, Hurry};
use super::moment::{Moment, Stands};
use super::touch::Touch;
use super::{Fingering, Why};
use crate::HandPosition;

/// For every moment and every way to leave it, what the rest of the line costs at least.
///
/// The work is one step a moment, so time and memory grow with the length of the line and no
/// faster. Knowing the exact rest from every place is also what lets [`cheapest`](super::cheapest)
/// list further ways without trying one in vain.
pub(super) struct Rest<'a> {
    moments: &'a [Moment],
    cost: &'a Cost,
    /// By moment, by exit.
    to_go: Vec<Box<[f64]>>,
}

impl<'a> Rest<'a> {
    pub(super) fn new(moments: &'a [Moment], cost: &'a Cost) -> Rest<'a> {
        let mut to_go: Vec<Box<[f64]>> = Vec::with_capacity(moments.len());
        for (index, moment) in moments.iter().enumerate().rev() {
            let here: Box<[f64]> = match (moments.get(index + 1), to_go.last()) {
                (Some(next), Some(after)) => {
                    let entries = Entries::new(&next.stands, after);
                    let hurry = Hurry::within_s(next.onset_s - moment.onset_s);
                    let exits = moment.stands.exits().iter();
                    exits.map(|exit| entries.least_after(*exit, cost, hurry)).collect()
                }
                _ => vec![0.0; moment.stands.exits().len()].into(),
            };
            to_go.push(here);
        }
        to_go.reverse();
        Rest { moments, cost, to_go }
    }

    /// What way `index` of moment `at` costs with all that follows it at best.
    pub(super) fn from(&self, at: usize, index: usize) -> f64 {
        let stands = &self.moments[at].stands;
        stands.cost(index) + self.after(at, index)
    }

    /// What follows way `index` of moment `at` at best.
    pub(super) fn after(&self, at: usize, index: usize) -> f64 {
        self.to_go[at][self.moments[at].stands.exit(index)]
    }

    /// The cost of going from one way of moment `at` to one of the next moment.
    pub(super) fn between(&self, at: usize, from: usize, to: usize) -> f64 {
        step_cost(self.cost, (&self.moments[at], from), (&self.moments[at + 1], to))
    }

    /// The fingering that a way through stands for.
    pub(super) fn fingering(&self, path: &[usize], why: Why) -> Fingering {
        Fingering::new(self.moments, path, total(self.moments, self.cost, path), why)
    }

    /// The cheapest way through: the way to take at each moment. Of equal ones the first.
    pub(super) fn best(&self) -> Vec<usize> {
        let mut path: Vec<usize> = Vec::with_capacity(self.moments.len());
        for (at, moment) in self.moments.iter().enumerate() {
            let so_far = path.last().copied();
            let total = |way: usize| {
                let come = so_far.map_or(0.0, |from| self.between(at - 1, from, way));
                come + self.from(at, way)
            };
            path.extend(cheapest_of(moment.stands.len(), total));
        }
        path
    }
}

/// What the way through that takes way `path[i]` at moment `i` costs.
pub(super) fn total(moments: &[Moment], cost: &Cost, path: &[usize]) -> f64 {
    let mut sum = 0.0;
    let mut before: Option<(&Moment, usize)> = None;
    for (moment, &way) in moments.iter().zip(path) {
        sum += moment.stands.cost(way);
        if let Some((last, from)) = before {
            sum += step_cost(cost, (last, from), (moment, way));
        }
        before = Some((moment, way));
    }
    sum
}

fn step_cost(cost: &Cost, (here, from): (&Moment, usize), (next, to): (&Moment, usize)) -> f64 {
    let hurry = Hurry::within_s(next.onset_s - here.onset_s);
    let exit = here.stands.exits()[here.stands.exit(from)];
    let entry = next.stands.entries()[next.stands.entry(to)];
    cost.between(exit, entry, hurry)
}

fn cheapest_of(count: usize, cost: impl Fn(usize) -> f64) -> Option<usize> {
    (0..count).map(|index| (index, cost(index))).min_by(|a, b| a.1.total_cmp(&b.1)).map(|it| it.0)
}

/// The ways into a moment, each with the least that it and everything after it costs.
struct Entries {
    /// By hand position, then the cheapest first.
    rests: Vec<(f64, Touch)>,
    groups: Vec<Group>,
}

/// The entries with the hand in one position.
struct Group {
    hand: HandPosition,
    entries: Range<usize>,
}

impl Entries {
    fn new(stands: &Stands, after: &[f64]) -> Entries {
        let mut rests: Vec<(f64, Touch)> =
            stands.entries().iter().map(|touch| (f64::INFINITY, *touch)).collect();
        for index in 0..stands.len() {
            let total = stands.cost(index) + after[stands.exit(index)];
            let (least, _) = &mut rests[stands.entry(index)];
            *least = least.min(total);
        }
        rests.sort_unstable_by(|a, b| a.1.hand.cmp(&b.1.hand).then(a.0.total_cmp(&b.0)));
        let mut groups: Vec<Group> = Vec::new();
        for (index, (_, touch)) in rests.iter().enumerate() {
            match groups.last_mut().filter(|group| group.hand == touch.hand) {
                Some(group) => group.entries.end = index + 1,
                None => groups.push(Group { hand: touch.hand, entries: index..index + 1 }),
            }
        }
        Entries { rests, groups }
    }

    /// The least that everything after `exit` costs. Where the hand stays is looked at first; an
    /// entry is passed over when getting the hand there alone would already cost more.
    fn least_after(&self, exit: Touch, cost: &Cost, hurry: Hurry) -> f64 {
        let stays = self.groups.iter().filter(|group| group.hand == exit.hand);
        let mut least = f64::INFINITY;
        for group in stays.chain(&self.groups) {
            let travel = cost.travel(exit.hand, group.hand, hurry);
            for (rest, entry) in &self.rests[group.entries.clone()] {
                if rest + travel >= least {
                    break;
                }
                least = least.min(rest + cost.between(exit, *entry, hurry));
            }
        }
        least
    }
}
