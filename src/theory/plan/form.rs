//! A form as the search sees it: spots for each chord, ways between them, and what all that costs.

mod few;
mod search;
mod through;

use std::collections::HashMap;
use std::rc::Rc;

use super::weights::{Count, FORBIDDEN, PlanCost};
use search::Search;

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

/// Into how many parts a form is divided to look for plans that differ.
const PARTS: usize = 8;
/// The most searches that are made for plans that differ.
const MOST_SEARCHES: usize = 512;

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

    /// The cheapest ways that differ, the best first: each has other pairs than every one before it
    /// over an eighth of the chords at least.
    pub(super) fn ways(&self, count: usize) -> Vec<Way> {
        let part = self.chords.len().div_ceil(PARTS);
        let differ = |one: &Way, other: &Way| {
            let chords = 0..self.chords.len();
            chords.filter(|&chord| !self.is_same(chord, one[chord], other[chord])).count() >= part
        };
        let own = self.chords.iter().map(|chord| chord.own.clone()).collect();
        let mut open: Vec<Branch> = self.branch(own).into_iter().collect();
        let (mut chosen, mut searches) = (Vec::new(), 0);
        while let Some((own, way)) = self.take_cheapest(&mut open) {
            if chosen.iter().all(|known| differ(known, &way)) {
                chosen.push(way.clone());
            }
            if chosen.len() >= count {
                break;
            }
            if searches < MOST_SEARCHES {
                let is_same = |chord, one, other| self.is_same(chord, one, other);
                let children = without_each_part(&own, &way, part, is_same);
                searches += children.len();
                open.extend(children.into_iter().filter_map(|own| self.branch(own)));
            }
        }
        chosen
    }

    /// Is it the same pair that two spots of a chord play?
    fn is_same(&self, chord: usize, one: usize, other: usize) -> bool {
        let pairs = &self.chords[chord].pairs;
        pairs[one] == pairs[other]
    }

    fn branch(&self, own: Own) -> Option<Branch> {
        let search = self.search(&own)?;
        Some(Branch { at_least: search.at_least(), way: None, search, own })
    }

    /// Takes out the branch with the cheapest way; of equal ones that with the earlier spots. Of a
    /// branch whose turn cannot come its way is never looked for.
    fn take_cheapest(&self, open: &mut Vec<Branch>) -> Option<(Own, Way)> {
        loop {
            let branches = open.iter().enumerate();
            let (next, _) =
                branches.min_by(|(_, one), (_, other)| one.turn().cmp(&other.turn()))?;
            let Branch { own, search, way, .. } = open.swap_remove(next);
            if let Some(way) = way {
                return Some((own, way));
            }
            if let Some((cost, way)) = self.cheapest(&own, &search) {
                open.push(Branch { at_least: cost, way: Some(way), search, own });
            }
        }
    }
}

/// Ways that are looked for together.
struct Branch {
    /// What the cheapest of them costs at least; just that once it is known.
    at_least: u64,
    way: Option<Way>,
    search: Search,
    own: Own,
}

impl Branch {
    /// When its turn comes: before one of the same cost whose way is known, as its own may be the
    /// earlier.
    fn turn(&self) -> (u64, Option<&Way>) {
        (self.at_least, self.way.as_ref())
    }
}

/// All ways but those that are like one of them somewhere in a part of the form, for each part. Where
/// a part is a chord these are all other ways, and each is in one of them: chords before that part
/// then stay as they are.
fn without_each_part(
    own: &Own,
    way: &Way,
    part: usize,
    is_same: impl Fn(usize, usize, usize) -> bool,
) -> Vec<Own> {
    let count = way.len();
    let without = |from: usize| {
        let mut own = own.clone();
        let others = (from..count)
            .take(part)
            .filter(|&chord| forbid(&mut own[chord], |spot| is_same(chord, spot, way[chord])));
        if others.count() == 0 {
            return None;
        }
        for chord in (0..from).take_while(|_| part == 1) {
            forbid(&mut own[chord], |spot| !is_same(chord, spot, way[chord]));
        }
        Some(own)
    };
    (0..count).step_by(part).filter_map(without).collect()
}

/// Forbids some spots of a chord, unless no other is left; tells whether it did.
fn forbid(own: &mut [Count], which: impl Fn(usize) -> bool) -> bool {
    let allowed = |spot: usize| own[spot] < FORBIDDEN;
    let leaves_any = (0..own.len()).any(|spot| allowed(spot) && !which(spot));
    if leaves_any {
        let unwanted = (0..own.len()).filter(|spot| which(*spot));
        unwanted.for_each(|spot| own[spot] = FORBIDDEN);
    }
    leaves_any
}
