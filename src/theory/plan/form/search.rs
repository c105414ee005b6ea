//! The cheapest way through a form.
//!
//! Chord by chord, from the end, the search works out what it costs at least to go on from each spot.
//! Where a form ends, the way that follows these costs is the cheapest. Going round, the last chord
//! leads to the first; so a round is begun from spots of the chord that has the fewest, those first
//! that promise most, until none can be cheaper than what has been found, and what promises less than
//! that is left on the way.

use super::{Form, Own, Round, Way};
use crate::plan::weights::{Count, FORBIDDEN};

/// The most steps from spot to spot that going round exactly may take.
const MOST_STEPS: usize = 40_000_000;

/// What it costs at least to go on from each spot of each chord, itself aside, until the end.
struct Onward {
    /// The chord that is begun with.
    first: usize,
    /// For each chord from there the spots, the cheapest of which costs nothing more than the others
    /// have in common.
    from: Vec<Vec<Count>>,
    common: Vec<u64>,
}

/// A spot on the way of a round.
#[derive(Clone, Copy)]
struct Reached {
    spot: usize,
    cost: u64,
    /// Which of those that were reached over the chord before it comes from.
    before: usize,
}

/// The cheapest round that is known.
struct Best {
    cost: u64,
    /// Where it begins; of a round that is only known to be there none.
    start: Option<usize>,
    way: Way,
}

/// A search that has begun: its ends are known, and where it may begin.
pub(super) struct Search {
    onward: Onward,
    /// The spots to begin from, with what a way costs at least that begins there; the cheapest first.
    starts: Vec<(u64, usize)>,
}

impl Search {
    /// What the cheapest way costs at least.
    pub(super) fn at_least(&self) -> u64 {
        self.starts.first().map_or(0, |(cost, _)| *cost)
    }
}

impl Form {
    /// Begins to look for the cheapest way. `None` where a chord has no spot that is allowed.
    pub(super) fn search(&self, own: &Own) -> Option<Search> {
        let onward = match self.round {
            Round::Open => self.onward(own, 0, own.len() - 1),
            Round::Closed => {
                let allowed =
                    |chord: &usize| own[*chord].iter().filter(|cost| **cost < FORBIDDEN).count();
                self.onward(own, (0..own.len()).min_by_key(allowed)?, own.len())
            }
        };
        let mut starts = onward.starts(own);
        starts.sort_unstable();
        (!starts.is_empty()).then_some(Search { onward, starts })
    }

    /// The cheapest way and what it costs; of equal ones that with the earlier spots.
    pub(super) fn cheapest(&self, own: &Own, search: &Search) -> Option<(u64, Way)> {
        match self.round {
            Round::Open => {
                let (cost, start) = *search.starts.first()?;
                Some((cost, self.descent(own, &search.onward, start)))
            }
            Round::Closed => self.round(own, search),
        }
    }

    fn round(&self, own: &Own, Search { onward, starts }: &Search) -> Option<(u64, Way)> {
        let mut best = self.promising(own, onward, starts.first()?.1);
        let mut taken = 0;
        for (bound, start) in starts {
            if *bound > best.cost {
                break;
            }
            if taken > MOST_STEPS {
                let meeting = self.meeting(own, onward.first)?;
                self.round_from(own, onward, meeting, &mut best);
                break;
            }
            taken += self.round_from(own, onward, *start, &mut best);
        }
        let mut way = best.way;
        way.rotate_right(onward.first);
        Some((best.cost, way))
    }

    /// What it costs at least to go on until so many chords after a first one have come.
    fn onward(&self, own: &Own, first: usize, chords: usize) -> Onward {
        let count = own.len();
        let mut from = vec![vec![0; own[(first + chords) % count].len()]];
        let mut common = vec![0];
        for further in (1..=chords).rev() {
            let chord = (first + further) % count;
            // A round ends in the spot in which it began, which has been counted there.
            let is_home = chords == count && further == count;
            let (Some(after), Some(known)) = (from.last(), common.last()) else { break };
            let mut least = vec![FORBIDDEN; own[self.before(chord)].len()];
            for (spot, (own, onward)) in own[chord].iter().zip(after).enumerate() {
                if *own >= FORBIDDEN {
                    continue;
                }
                let here = onward + if is_home { 0 } else { *own };
                for (least, step) in least.iter_mut().zip(self.row(chord, spot)) {
                    *least = (*least).min(here + *step);
                }
            }
            let shared = least.iter().copied().min().unwrap_or(0);
            least.iter_mut().for_each(|cost| *cost = (*cost - shared).min(FORBIDDEN));
            common.push(known + u64::from(shared));
            from.push(least);
        }
        from.reverse();
        common.reverse();
        Onward { first, from, common }
    }

    /// The spots that follow one another as cheaply as they may, from a start.
    fn descent(&self, own: &Own, onward: &Onward, start: usize) -> Vec<usize> {
        let mut spots = vec![start];
        for (further, after) in onward.from.iter().enumerate().skip(1) {
            let chord = (onward.first + further) % own.len();
            let here = spots[further - 1];
            let goes = |spot: usize| {
                let step = u64::from(self.row(chord, spot)[here]);
                step + u64::from(own[chord][spot]) + u64::from(after[spot])
            };
            let next = (0..own[chord].len()).min_by_key(|spot| goes(*spot));
            spots.push(next.unwrap_or(0));
        }
        spots
    }

    /// The round that goes on from a start as cheaply as it may, and then comes back to it.
    fn promising(&self, own: &Own, onward: &Onward, start: usize) -> Best {
        let mut way = self.descent(own, onward, start);
        way.truncate(own.len());
        let chord = |further: usize| (onward.first + further) % own.len();
        let own_costs = (0..own.len()).map(|further| own[chord(further)][way[further]]);
        let steps = (1..=own.len()).map(|further| {
            let to = way[further % own.len()];
            self.row(chord(further), to)[way[further - 1]]
        });
        let cost = own_costs.chain(steps).map(u64::from).sum();
        Best { cost, start: None, way }
    }

    /// Looks for a cheaper round from a spot to itself, or one as cheap that begins earlier, and tells
    /// how many steps that took.
    fn round_from(&self, own: &Own, onward: &Onward, start: usize, best: &mut Best) -> usize {
        let count = own.len();
        let begins = Reached { spot: start, cost: own[onward.first][start].into(), before: 0 };
        let mut reached = vec![vec![begins]];
        let mut taken = 0;
        for further in 1..count {
            let chord = (onward.first + further) % count;
            let before = &reached[further - 1];
            taken += before.len() * own[chord].len();
            let most = best.cost.saturating_sub(onward.common[further]);
            let least = before.iter().map(|from| from.cost).min().unwrap_or(most);
            let reach = |spot: usize| {
                let (here, after) = (own[chord][spot], onward.from[further][spot]);
                if here >= FORBIDDEN || least + u64::from(here) + u64::from(after) > most {
                    return None;
                }
                let row = self.row(chord, spot);
                let comes = before.iter().map(|from| from.cost + u64::from(row[from.spot]));
                let (cost, before) = comes.zip(0..).min()?;
                let cost = cost + u64::from(here);
                let promises = cost + u64::from(after) <= most;
                promises.then_some(Reached { spot, cost, before })
            };
            let here: Vec<Reached> = (0..own[chord].len()).filter_map(reach).collect();
            reached.push(here);
        }
        let home = self.row(onward.first, start);
        let ends = reached[count - 1].iter().map(|last| last.cost + u64::from(home[last.spot]));
        let Some((cost, last)) = ends.zip(0..).min() else { return taken };
        let earlier = best.start.is_none_or(|known| start < known);
        if cost < best.cost || cost == best.cost && earlier {
            *best = Best { cost, start: Some(start), way: walked_back(&reached, last) };
        }
        taken
    }

    /// Where the second of two rounds begins on the cheapest way through both.
    fn meeting(&self, own: &Own, first: usize) -> Option<usize> {
        let onward = self.onward(own, first, 2 * own.len());
        let (_, start) = onward.starts(own).into_iter().min()?;
        self.descent(own, &onward, start).get(own.len()).copied()
    }
}

impl Onward {
    /// The spots to begin from that are allowed and lead on, with what that costs at least.
    fn starts(&self, own: &Own) -> Vec<(u64, usize)> {
        let each = own[self.first].iter().zip(&self.from[0]).zip(0..);
        let allowed = each.filter(|((own, onward), _)| **own < FORBIDDEN && **onward < FORBIDDEN);
        let cost = |own: Count, onward: Count| u64::from(own) + u64::from(onward) + self.common[0];
        allowed.map(|((own, onward), spot)| (cost(*own, *onward), spot)).collect()
    }
}

/// The way that ends in one of those that were reached over the last chord.
fn walked_back(reached: &[Vec<Reached>], last: usize) -> Way {
    let mut at = last;
    let mut way: Way = Vec::with_capacity(reached.len());
    for here in reached.iter().rev() {
        way.push(here[at].spot);
        at = here[at].before;
    }
    way.reverse();
    way
}
