//! What was meant by the bars of a line, and what can be heard of it: told by the triads of its notes
//! and nothing else.

use std::collections::BTreeSet;

use fretloom::answer::LineAnswer;
use fretloom_theory::{Explanation, TriadPair};

/// A triad as a set of pitch classes, as bits.
type Notes = u16;

/// A bar, or the part of it under one chord.
#[derive(Debug)]
pub(crate) struct Bar {
    /// The triad of each note as it was meant; `None` for a free one.
    meant: Vec<Option<Notes>>,
    /// The triad of each note as it is told.
    told: Vec<Option<Notes>>,
    /// The pairs that were meant.
    pairs: BTreeSet<[Notes; 2]>,
    told_pair: Option<[Notes; 2]>,
    /// What sounds.
    classes: Vec<Notes>,
    /// What sounds of the pair here and in the bars beside it that were meant alike.
    around: Notes,
}

impl Bar {
    /// Are the two triads heard in it, or with the bars beside it?
    pub(crate) fn shows_its_pair(&self) -> bool {
        let Some(pair) = self.pair() else { return false };
        let sounds = |triad: Notes| {
            let notes = self.meant.iter().zip(&self.classes);
            notes.filter(|(of, _)| **of == Some(triad)).fold(0, |all, (_, class)| all | class)
        };
        let grouped = self.meant.iter().flatten().count();
        let enough = 2 * grouped >= self.meant.len();
        let few_are_free = 4 * grouped >= 3 * self.meant.len();
        let whole = few_are_free && pair.iter().any(|triad| sounds(*triad) == *triad);
        let both = pair.iter().all(|triad| sounds(*triad) != 0) && grouped >= 3;
        enough && (self.around == pair[0] | pair[1] || whole || both)
    }

    /// Is its pair told, each note in the triad that it was meant for? A bar that does not show its
    /// pair may be told to have none.
    pub(crate) fn is_told_as_meant(&self) -> bool {
        match (self.told_pair, self.pair()) {
            (Some(told), Some(meant)) => told == meant && self.told == self.meant,
            (Some(_), None) => false,
            (None, _) => !self.shows_its_pair(),
        }
    }

    /// The one pair that was meant.
    fn pair(&self) -> Option<[Notes; 2]> {
        self.pairs.first().copied().filter(|_| self.pairs.len() == 1)
    }
}

/// The bars in which a note of a pair begins.
pub(crate) fn bars(line: &LineAnswer, told: &Explanation) -> Vec<Bar> {
    let mut triads: Vec<Option<Notes>> = vec![None; line.notes.len()];
    for group in told.bars.iter().flat_map(|bar| &bar.groups) {
        group.notes.iter().for_each(|note| triads[*note] = Some(group.triad.set().bits()));
    }
    let mut bars: Vec<Bar> = Vec::new();
    for explained in &told.bars {
        let begins = |note: &usize| {
            let onset = line.notes[*note].note.onset;
            explained.from <= onset && onset < explained.to
        };
        let own: Vec<usize> = (0..line.notes.len()).filter(begins).collect();
        let meant: Vec<Option<Notes>> = own
            .iter()
            .map(|note| line.notes[*note].triad.map(|triad| triad.triad().set().bits()))
            .collect();
        let classes = own.iter().map(|note| 1 << (line.notes[*note].note.pitch.midi() % 12));
        let of_pair = own.iter().filter(|note| line.notes[**note].triad.is_some());
        bars.push(Bar {
            pairs: of_pair.map(|note| pair_of(line, *note)).collect(),
            told: own.iter().map(|note| triads[*note]).collect(),
            told_pair: explained.pair.map(bits),
            classes: classes.collect(),
            around: 0,
            meant,
        });
    }
    for at in 0..bars.len() {
        bars[at].around = around(&bars, at);
    }
    bars.retain(|bar| !bar.pairs.is_empty());
    bars
}

/// The pair of a note: that of its phrase, or where it lands in another one that of the chord.
fn pair_of(line: &LineAnswer, note: usize) -> [Notes; 2] {
    let told = &line.notes[note];
    let phrase = &line.made_of()[told.note.phrase];
    let triad = told.triad.map(|triad| triad.triad().set().bits());
    let own = bits(phrase.pair);
    let landed = phrase.target.and_then(|target| target.pair).map_or(own, bits);
    if triad.is_some_and(|triad| own.contains(&triad)) { own } else { landed }
}

/// What sounds of its pair in the bars around one that were meant alike.
fn around(bars: &[Bar], at: usize) -> Notes {
    let alike = |bar: &&Bar| bar.pairs == bars[at].pairs;
    let before = bars[..at].iter().rev().take_while(alike);
    let after = bars[at..].iter().take_while(alike);
    let notes = before.chain(after).flat_map(|bar| bar.meant.iter().zip(&bar.classes));
    notes.filter(|(of, _)| of.is_some()).fold(0, |all, (_, class)| all | class)
}

fn bits(pair: TriadPair) -> [Notes; 2] {
    let mut triads = pair.triads().map(|triad| triad.set().bits());
    triads.sort_unstable();
    triads
}
