//! The choices that a hand has at one onset: every way to play the notes that begin there.

use std::collections::HashMap;
use std::ops::Range;

use super::fingered_note::FingeredNote;
use crate::HandPosition;

/// How many notes all the choices of one chord have together, at most; of more, the cheapest choices
/// are kept. For the chords of a guitar there are never as many.
const MOST_NOTES: usize = 2048;

/// Every way to play an onset. Choices with the same places follow one another.
pub(super) struct Choices {
    /// How many notes begin at the onset.
    size: usize,
    /// The notes of all choices, `size` for each.
    notes: Vec<FingeredNote>,
    costs: Vec<f64>,
    /// How the hand comes in, by the first note; how it goes on, by the last.
    entries: Ends,
    exits: Ends,
}

/// The different notes at one end of an onset, its first or its last. Most onsets are one note, and
/// then there is one for each choice.
pub(super) struct Ends {
    /// By hand position.
    notes: Vec<FingeredNote>,
    /// The ranges of `notes` with the hand in one position.
    positions: Vec<(HandPosition, Range<usize>)>,
    /// For each choice, which of the notes.
    of: Vec<u16>,
}

impl Choices {
    pub(super) fn len(&self) -> usize {
        self.costs.len()
    }

    /// The notes of choice number `index`.
    pub(super) fn notes(&self, index: usize) -> &[FingeredNote] {
        &self.notes[index * self.size..(index + 1) * self.size]
    }

    pub(super) fn cost(&self, index: usize) -> f64 {
        self.costs[index]
    }

    pub(super) fn entries(&self) -> &Ends {
        &self.entries
    }

    pub(super) fn exits(&self) -> &Ends {
        &self.exits
    }

    pub(super) fn entry(&self, index: usize) -> usize {
        usize::from(self.entries.of[index])
    }

    pub(super) fn exit(&self, index: usize) -> usize {
        usize::from(self.exits.of[index])
    }

    /// The ranges of choices that have the same places.
    pub(super) fn by_places(&self) -> Vec<Range<usize>> {
        let places = |index: usize| self.notes(index).iter().map(|note| note.place);
        let mut ranges: Vec<Range<usize>> = Vec::new();
        for index in 0..self.len() {
            match ranges.last_mut() {
                Some(range) if places(range.start).eq(places(index)) => range.end = index + 1,
                _ => ranges.push(index..index + 1),
            }
        }
        ranges
    }
}

/// The choices of an onset while they are searched for.
pub(super) struct ChoicesBuilder {
    size: usize,
    notes: Vec<FingeredNote>,
    costs: Vec<f64>,
}

impl ChoicesBuilder {
    /// No choice yet for an onset of `size` notes.
    pub(super) fn of_size(size: usize) -> ChoicesBuilder {
        ChoicesBuilder { size, notes: Vec::new(), costs: Vec::new() }
    }

    pub(super) fn push(&mut self, notes: &[FingeredNote], cost: f64) {
        self.notes.extend_from_slice(notes);
        self.costs.push(cost);
    }

    pub(super) fn build(self) -> Choices {
        let ChoicesBuilder { size, notes, costs } = self.bounded();
        let choices = || notes.chunks(size);
        let entries = Ends::new(choices().filter_map(|notes| notes.first()));
        let exits = Ends::new(choices().filter_map(|notes| notes.last()));
        Choices { size, notes, costs, entries, exits }
    }

    /// The cheapest choices, where there are too many, in the order in which they were found.
    fn bounded(self) -> ChoicesBuilder {
        let most = MOST_NOTES / self.size;
        if self.size == 1 || self.costs.len() <= most {
            return self;
        }
        let mut kept: Vec<usize> = (0..self.costs.len()).collect();
        kept.sort_by(|a, b| self.costs[*a].total_cmp(&self.costs[*b]));
        kept.truncate(most);
        kept.sort_unstable();
        let mut bounded = ChoicesBuilder::of_size(self.size);
        for index in kept {
            let from = index * self.size;
            bounded.push(&self.notes[from..from + self.size], self.costs[index]);
        }
        bounded
    }
}

impl Ends {
    fn new<'a>(ends: impl Iterator<Item = &'a FingeredNote> + Clone) -> Ends {
        let mut notes: Vec<FingeredNote> = Vec::new();
        let mut found: HashMap<FingeredNote, u16> = HashMap::new();
        for note in ends.clone() {
            found.entry(*note).or_insert_with(|| {
                notes.push(*note);
                0
            });
        }
        notes.sort_by_key(|note| note.position);
        found.extend(notes.iter().copied().zip(0..));
        let of = ends.filter_map(|note| found.get(note).copied()).collect();
        let mut positions: Vec<(HandPosition, Range<usize>)> = Vec::new();
        for (index, note) in notes.iter().enumerate() {
            match positions.last_mut().filter(|(position, _)| *position == note.position) {
                Some((_, range)) => range.end = index + 1,
                None => positions.push((note.position, index..index + 1)),
            }
        }
        Ends { notes, positions, of }
    }

    pub(super) fn notes(&self) -> &[FingeredNote] {
        &self.notes
    }

    /// The positions of the hand, each with the range of its notes.
    pub(super) fn positions(&self) -> &[(HandPosition, Range<usize>)] {
        &self.positions
    }
}
