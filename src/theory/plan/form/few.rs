//! Few pairs for a whole form.
//!
//! Where a player wants to get through a tune with so many pairs, somebody has to say which. What a
//! choice of pairs costs is quickly worked out, as few spots are left over each chord. So where there
//! are few such choices all are tried; else pairs are taken one by one, those first that help most,
//! and then exchanged one by one as long as that helps.

use std::collections::HashSet;

use super::{Form, FormChord, Round, Way};
use crate::plan::weights::FORBIDDEN;

/// The most steps that may be taken to try all choices, and to look for a good one.
const MOST_STEPS: usize = 20_000_000;

/// How good some pairs are for a form, the best first: over how many chords none of them can be
/// played, and what the cheapest way costs, or about that as long as there is none.
type Merit = (usize, u64);

/// Some pairs with how good they are.
type Choice = (Merit, Vec<usize>);

/// The chords of a form as far as they matter here.
struct Pairs<'a> {
    form: &'a Form,
    /// For each chord the pairs that can be played there, each with its spots.
    of_chords: Vec<Vec<(usize, Vec<usize>)>>,
    /// How many pairs there are in the form.
    count: usize,
    /// How many steps have been taken.
    taken: usize,
}

impl Form {
    /// So many pairs at most, those with which the cheapest way is the cheapest; for a long form, the
    /// best that were found. `None` where none were found that serve all chords.
    pub(in crate::plan) fn few_pairs(&self, most: usize) -> Option<Vec<usize>> {
        Pairs::of(self).best(most)
    }

    /// How many pairs are enough where so many are not.
    pub(in crate::plan) fn enough_pairs(&self, most: usize) -> usize {
        let different = |way: Way| {
            let pairs = way.iter().zip(&self.chords).map(|(spot, chord)| chord.pairs[*spot]);
            pairs.collect::<HashSet<usize>>().len()
        };
        let free = self.ways(1).pop().map_or(self.chords.len(), different);
        (most + 1..free).find(|more| self.few_pairs(*more).is_some()).unwrap_or(free)
    }
}

impl Pairs<'_> {
    fn of(form: &Form) -> Pairs<'_> {
        let of_chord = |chord: &FormChord| {
            let mut pairs: Vec<(usize, Vec<usize>)> = Vec::new();
            for (spot, (own, pair)) in chord.own.iter().zip(&chord.pairs).enumerate() {
                if *own >= FORBIDDEN {
                    continue;
                }
                match pairs.iter_mut().find(|(known, _)| known == pair) {
                    Some((_, spots)) => spots.push(spot),
                    None => pairs.push((*pair, vec![spot])),
                }
            }
            pairs
        };
        let of_chords: Vec<_> = form.chords.iter().map(of_chord).collect();
        let all = of_chords.iter().flatten().map(|(pair, _)| *pair);
        let count = all.max().map_or(0, |last| last + 1);
        Pairs { form, of_chords, count, taken: 0 }
    }

    /// The best choice of so many pairs, if one serves all chords.
    fn best(mut self, most: usize) -> Option<Vec<usize>> {
        let most = most.min(self.count);
        let found = match self.can_all_be_tried(most) {
            true => self.best_of_all(most),
            false => {
                let gathered = self.gathered(most);
                self.exchanged(gathered)
            }
        };
        (found.0.0 == 0).then_some(found.1)
    }

    /// Can all choices of so many pairs be tried?
    fn can_all_be_tried(&self, most: usize) -> bool {
        let each = self.of_chords.len().saturating_mul(most.saturating_mul(most).max(1));
        let choices = (0..most).try_fold(1_usize, |choices, taken| {
            choices.checked_mul(self.count - taken).map(|choices| choices / (taken + 1))
        });
        choices.and_then(|choices| choices.checked_mul(each)).is_some_and(|all| all <= MOST_STEPS)
    }

    fn best_of_all(&mut self, most: usize) -> Choice {
        let mut kept: Vec<usize> = (0..most).collect();
        let mut best = (self.merit(&kept), kept.clone());
        loop {
            // The next choice in order: the last pair that can be a later one is.
            let later = (0..most).rev().find(|place| kept[*place] + most - place < self.count);
            let Some(place) = later else { return best };
            let next = kept[place] + 1;
            for (further, pair) in kept[place..].iter_mut().enumerate() {
                *pair = next + further;
            }
            let merit = self.merit(&kept);
            if merit < best.0 {
                best = (merit, kept.clone());
            }
        }
    }

    /// Pairs taken one by one, each time the one that helps most.
    fn gathered(&mut self, most: usize) -> Choice {
        let mut best: Choice = (self.merit(&[]), Vec::new());
        for _ in 0..most {
            let others = (0..self.count).filter(|pair| !best.1.contains(pair));
            let with = |pair: usize| best.1.iter().copied().chain([pair]).collect();
            let choices: Vec<Vec<usize>> = others.map(with).collect();
            let better = choices.into_iter().map(|kept| (self.merit(&kept), kept)).min();
            match better {
                Some(better) if better.0 < best.0 => best = better,
                _ => break,
            }
        }
        best
    }

    /// The same with one pair after the other exchanged, as long as that helps and time is left.
    fn exchanged(&mut self, (mut merit, mut kept): Choice) -> Choice {
        let mut unchanged = 0;
        let mut place = 0;
        while unchanged < kept.len() && self.taken < MOST_STEPS {
            let known = kept[place];
            for pair in 0..self.count {
                if kept.contains(&pair) {
                    continue;
                }
                let before = std::mem::replace(&mut kept[place], pair);
                let other = self.merit(&kept);
                match other < merit {
                    true => merit = other,
                    false => kept[place] = before,
                }
            }
            unchanged = if kept[place] == known { unchanged + 1 } else { 0 };
            place = (place + 1) % kept.len();
        }
        (merit, kept)
    }

    fn merit(&mut self, kept: &[usize]) -> Merit {
        let spots = |pairs: &Vec<(usize, Vec<usize>)>| -> Vec<usize> {
            let known = pairs.iter().filter(|(pair, _)| kept.contains(pair));
            known.flat_map(|(_, spots)| spots.iter().copied()).collect()
        };
        let spots: Vec<Vec<usize>> = self.of_chords.iter().map(spots).collect();
        self.taken += spots.iter().map(|here| here.len().pow(2) + 1).sum::<usize>();
        let unserved = spots.iter().filter(|here| here.is_empty()).count();
        if unserved == 0 {
            return (0, self.form.cost_among(&spots));
        }
        let own = |(chord, here): (usize, &Vec<usize>)| {
            here.iter().map(|spot| u64::from(self.form.chords[chord].own[*spot])).min()
        };
        (unserved, spots.iter().enumerate().filter_map(own).sum())
    }
}

impl Form {
    /// What the cheapest way costs that keeps to some spots of each chord, one at least.
    fn cost_among(&self, spots: &[Vec<usize>]) -> u64 {
        let count = spots.len();
        let own = |chord: usize, spot: usize| u64::from(self.chords[chord].own[spot]);
        let onward = |first: usize, begins: Vec<u64>, chords: usize| {
            (1..=chords).fold(begins, |reached, further| {
                let chord = (first + further) % count;
                let before = &spots[(chord + count - 1) % count];
                let step = |spot: &usize| {
                    let row = self.row(chord, *spot);
                    let ways = before.iter().zip(&reached);
                    let least = ways.map(|(from, cost)| cost + u64::from(row[*from])).min();
                    // A round that comes back does not begin again.
                    let own = if further == count { 0 } else { own(chord, *spot) };
                    least.unwrap_or(u64::MAX / 4) + own
                };
                spots[chord].iter().map(step).collect()
            })
        };
        let costs = match self.round {
            Round::Open => {
                let begins = spots[0].iter().map(|spot| own(0, *spot)).collect();
                onward(0, begins, count - 1)
            }
            Round::Closed => {
                let first = (0..count).min_by_key(|chord| spots[*chord].len()).unwrap_or(0);
                let round = |start: usize| {
                    let begins = |(at, spot): (usize, &usize)| match at == start {
                        true => own(first, *spot),
                        false => FORBIDDEN.into(),
                    };
                    let begins = spots[first].iter().enumerate().map(begins).collect();
                    onward(first, begins, count)[start]
                };
                (0..spots[first].len()).map(round).collect()
            }
        };
        costs.into_iter().min().unwrap_or(u64::MAX)
    }
}
