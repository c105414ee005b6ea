//! The shapes of a form, laid out for the search.

use std::collections::HashMap;
use std::rc::Rc;

use fretloom_theory::TriadPair;

use super::chord::CompedChord;
use super::cost;
use super::made::Stab;
use super::stage::{Stage, Steps};
use crate::{Neck, Rung};

/// The shapes of each pair of a form, those of both triads among one another by height.
#[derive(Default)]
pub(super) struct Held {
    pairs: Vec<Vec<Rung>>,
    known: HashMap<TriadPair, usize>,
}

impl Held {
    /// Those of a pair; `find` is asked where it comes for the first time.
    pub(super) fn of_pair(&mut self, pair: TriadPair, find: impl FnOnce() -> Vec<Rung>) -> &[Rung] {
        let next = self.pairs.len();
        let index = *self.known.entry(pair).or_insert(next);
        if index == next {
            self.pairs.push(find());
        }
        self.pairs.get(index).map_or(&[], Vec::as_slice)
    }

    /// Drops what no hand holds.
    pub(super) fn drop_unheld(&mut self) {
        let held = |rung: &Rung| rung.shape.grip().is_some();
        self.pairs.iter_mut().for_each(|rungs| rungs.retain(held));
    }

    fn index(&self, pair: TriadPair) -> usize {
        self.known.get(&pair).copied().unwrap_or_default()
    }
}

/// The stabs of a form with the shapes that each may have in an area.
pub(super) struct Laid {
    pairs: Vec<Spots>,
    stabs: Vec<LaidStab>,
}

/// The shapes of a pair in an area, and what each costs.
struct Spots {
    rungs: Vec<Rung>,
    own: Rc<[u32]>,
}

#[derive(Clone, Copy)]
struct LaidStab {
    chord: usize,
    pair: usize,
    begins: Begins,
}

/// What a stab begins.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Begins {
    /// Its chord, with either triad.
    Chord,
    /// Nothing: it has the other triad than the stab before.
    Nothing,
}

impl Laid {
    /// `None` where a triad that is played has no shape there.
    pub(super) fn of(
        neck: &Neck,
        chords: &[CompedChord],
        held: &Held,
        lies_there: impl Fn(&Rung) -> bool,
    ) -> Option<Laid> {
        let spots = |rungs: &Vec<Rung>| {
            let rungs: Vec<Rung> = rungs.iter().filter(|rung| lies_there(rung)).copied().collect();
            let own = rungs.iter().map(|rung| cost::own(neck, &rung.shape)).collect();
            Spots { rungs, own }
        };
        let pairs: Vec<Spots> = held.pairs.iter().map(spots).collect();
        let mut stabs = Vec::new();
        for (chord, comped) in chords.iter().enumerate() {
            let pair = held.index(comped.pair());
            if pairs.get(pair)?.triads() < comped.stabs() {
                return None;
            }
            let begins = [Begins::Chord, Begins::Nothing].into_iter().take(comped.stabs());
            stabs.extend(begins.map(|begins| LaidStab { chord, pair, begins }));
        }
        Some(Laid { pairs, stabs })
    }

    /// The stabs as stages, and the steps from the last one to the first.
    pub(super) fn stages(&self, top: u8) -> (Vec<Stage>, Rc<Steps>) {
        let mut known: HashMap<(usize, usize, Begins), Rc<Steps>> = HashMap::new();
        let mut steps_to = |from: &LaidStab, to: &LaidStab| {
            let steps = known.entry((from.pair, to.pair, to.begins));
            Rc::clone(steps.or_insert_with(|| Rc::new(self.steps(from, to, top))))
        };
        let mut stages: Vec<Stage> = Vec::with_capacity(self.stabs.len());
        let mut before = None;
        for stab in &self.stabs {
            let steps = before.map(|before| steps_to(before, stab)).unwrap_or_default();
            stages.push(Stage { own: Rc::clone(&self.pairs[stab.pair].own), steps });
            before = Some(stab);
        }
        let home = self.stabs.last().zip(self.stabs.first());
        (stages, home.map(|(last, first)| steps_to(last, first)).unwrap_or_default())
    }

    fn steps(&self, from: &LaidStab, to: &LaidStab, top: u8) -> Steps {
        let (before, after) = (&self.pairs[from.pair].rungs, &self.pairs[to.pair].rungs);
        Steps::between(before.len(), after.len(), |from, into| {
            let (from, into) = (&before[from], &after[into]);
            let is_other = from.which != into.which;
            let allowed = to.begins == Begins::Chord || is_other;
            allowed.then(|| cost::step(&from.shape, &into.shape, top)).flatten()
        })
    }

    /// The chord of the form that has the stab with this index.
    pub(super) fn chord_of(&self, stab: usize) -> usize {
        self.stabs.get(stab).map_or(0, |stab| stab.chord)
    }

    /// The stabs of a way.
    pub(super) fn stabs(&self, way: &[usize]) -> Vec<Stab> {
        let stab = |(stab, spot): (&LaidStab, &usize)| {
            let Rung { which, shape } = self.pairs[stab.pair].rungs[*spot];
            Stab { chord: stab.chord, which, shape }
        };
        self.stabs.iter().zip(way).map(stab).collect()
    }
}

impl Spots {
    /// How many triads of the pair have a shape there.
    fn triads(&self) -> usize {
        let mut which: Vec<_> = self.rungs.iter().map(|rung| rung.which).collect();
        which.sort_by_key(|which| *which as u8);
        which.dedup();
        which.len()
    }
}
