//! The cheapest way through a line: exact dynamic programming from its end to its beginning.

use std::ops::Range;

use super::cost::{Cost, Hurry};
use super::moment::Moment;
use super::stands::{Ports, Stands};
use super::touch::Touch;
use super::{Fingering, Why};

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
                    entries.least_after(moment.stands.exits(), cost, hurry)
                }
                _ => vec![0.0; moment.stands.exits().touches().len()].into(),
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
    let exit = here.stands.exits().touches()[here.stands.exit(from)];
    let entry = next.stands.entries().touches()[next.stands.entry(to)];
    cost.between(exit, entry, hurry)
}

fn cheapest_of(count: usize, cost: impl Fn(usize) -> f64) -> Option<usize> {
    (0..count).map(|index| (index, cost(index))).min_by(|a, b| a.1.total_cmp(&b.1)).map(|it| it.0)
}

/// The ways into a moment, each with the least that it and everything after it costs.
struct Entries<'a> {
    ports: &'a Ports,
    rests: Vec<f64>,
    /// The least of them for each position of the hand.
    leasts: Vec<f64>,
}

impl<'a> Entries<'a> {
    fn new(stands: &'a Stands, after: &[f64]) -> Entries<'a> {
        let ports = stands.entries();
        let mut rests = vec![f64::INFINITY; ports.touches().len()];
        for index in 0..stands.len() {
            let total = stands.cost(index) + after[stands.exit(index)];
            let least = &mut rests[stands.entry(index)];
            *least = least.min(total);
        }
        let least = |range: &Range<usize>| {
            rests[range.clone()].iter().copied().fold(f64::INFINITY, f64::min)
        };
        let leasts = ports.hands().iter().map(|(_, range)| least(range)).collect();
        Entries { ports, rests, leasts }
    }

    /// For each exit of the moment before, the least that everything after it costs.
    fn least_after(&self, exits: &Ports, cost: &Cost, hurry: Hurry) -> Box<[f64]> {
        let mut all = Vec::with_capacity(exits.touches().len());
        let mut travels = Vec::with_capacity(self.leasts.len());
        for (hand, range) in exits.hands() {
            let positions = self.ports.hands().iter();
            travels.clear();
            travels.extend(positions.map(|(to, _)| cost.travel(*hand, *to, hurry)));
            let stays = self.ports.hands().iter().position(|(to, _)| to == hand);
            let touches = exits.touches()[range.clone()].iter();
            all.extend(touches.map(|exit| {
                // Where the hand stays is looked at first: it is most often the least.
                let mut least = stays.map_or(f64::INFINITY, |hand| {
                    self.least_in(hand, 0.0, f64::INFINITY, |entry| {
                        cost.between(*exit, entry, hurry)
                    })
                });
                for (hand, travel) in travels.iter().enumerate() {
                    if self.leasts[hand] + travel < least && Some(hand) != stays {
                        least = self.least_in(hand, *travel, least, |entry| {
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
        hand: usize,
        travel: f64,
        least: f64,
        between: impl Fn(Touch) -> f64,
    ) -> f64 {
        let range = self.ports.hands()[hand].1.clone();
        let entries = self.ports.touches()[range.clone()].iter().zip(&self.rests[range]);
        entries.fold(least, |least, (entry, rest)| {
            if rest + travel < least { least.min(rest + between(*entry)) } else { least }
        })
    }
}
