//! The cheapest ways that differ.
//!
//! The cheapest way is taken, and what is left is divided: other ways differ from it in one part of the
//! form or another. Of each part it is known what its cheapest way costs at least as soon as the search
//! for that has begun; the way itself is found when its turn may have come.

use super::search::Search;
use super::{Form, Own, Way};
use crate::plan::weights::{Count, FORBIDDEN};

/// Into how many parts a form is divided to look for plans that differ.
const PARTS: usize = 8;
/// The most searches that are made for plans that differ.
const MOST_SEARCHES: usize = 512;

impl Form {
    /// The cheapest ways that differ, the best first: each has other pairs than every one before it
    /// over an eighth of the chords at least.
    pub(in crate::plan) fn ways(&self, count: usize) -> Vec<Way> {
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

    fn branch(&self, own: Own) -> Option<Branch> {
        let search = self.search(&own)?;
        Some(Branch { at_least: search.at_least(), cheapest: Cheapest::Sought(search), own })
    }

    /// Takes out the branch with the cheapest way; of equal ones that with the earlier spots. Of a
    /// branch whose turn cannot come its way is never looked for.
    fn take_cheapest(&self, open: &mut Vec<Branch>) -> Option<(Own, Way)> {
        loop {
            let branches = open.iter().enumerate();
            let (next, _) =
                branches.min_by(|(_, one), (_, other)| one.turn().cmp(&other.turn()))?;
            let Branch { own, cheapest, .. } = open.swap_remove(next);
            let search = match cheapest {
                Cheapest::Found(way) => return Some((own, way)),
                Cheapest::Sought(search) => search,
            };
            if let Some((at_least, way)) = self.cheapest(&own, &search) {
                open.push(Branch { at_least, cheapest: Cheapest::Found(way), own });
            }
        }
    }
}

/// Ways that are looked for together.
struct Branch {
    /// What the cheapest of them costs at least; just that once it is found.
    at_least: u64,
    cheapest: Cheapest,
    own: Own,
}

/// The cheapest way of a branch.
enum Cheapest {
    Sought(Search),
    Found(Way),
}

impl Branch {
    /// When its turn comes: before one of the same cost whose way is found, as its own may be the
    /// earlier.
    fn turn(&self) -> (u64, Option<&Way>) {
        let way = match &self.cheapest {
            Cheapest::Sought(_) => None,
            Cheapest::Found(way) => Some(way),
        };
        (self.at_least, way)
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
