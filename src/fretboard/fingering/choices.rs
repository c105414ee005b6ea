//! The choices that a hand has at one onset: every way to play the notes that begin there.

use std::collections::HashMap;
use std::ops::Range;

use super::fingered_note::FingeredNote;
use crate::HandPosition;

/// The most steps of the search for the choices of one onset. Where it takes more, the onset is
/// refused.
const MOST_STEPS: usize = 50_000;

/// Every way to play an onset. Choices with the same places follow one another.
pub(super) struct Choices {
    /// How many notes begin at the onset.
    size: usize,
    /// The notes of all choices, `size` for each.
    notes: Vec<FingeredNote>,
    costs: Vec<f64>,
    held: Held,
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

    /// Is this more than one hand can hold?
    pub(super) fn is_beyond_a_hand(&self) -> bool {
        self.held == Held::ByNoHand
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

/// How notes that sound together are held.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Held {
    ByOneHand,
    /// No hand could hold them, yet the line has them (a bend, a strum, a second player).
    ByNoHand,
}

/// An onset has more choices than are searched.
pub(super) struct TooMany;

/// The choices of an onset while they are searched for.
pub(super) struct ChoicesBuilder {
    size: usize,
    notes: Vec<FingeredNote>,
    costs: Vec<f64>,
    steps: usize,
}

impl ChoicesBuilder {
    /// No choice yet for an onset of `size` notes.
    pub(super) fn of_size(size: usize) -> ChoicesBuilder {
        ChoicesBuilder { size, notes: Vec::new(), costs: Vec::new(), steps: 0 }
    }

    /// How many notes each choice has.
    pub(super) fn size(&self) -> usize {
        self.size
    }

    pub(super) fn is_empty(&self) -> bool {
        self.costs.is_empty()
    }

    pub(super) fn push(&mut self, notes: &[FingeredNote], cost: f64) {
        self.notes.extend_from_slice(notes);
        self.costs.push(cost);
    }

    /// Counts a step of the search.
    pub(super) fn count_step(&mut self) -> Result<(), TooMany> {
        self.steps += 1;
        if self.steps > MOST_STEPS { Err(TooMany) } else { Ok(()) }
    }

    pub(super) fn build(self, held: Held) -> Choices {
        let choices = || self.notes.chunks(self.size);
        let entries = Ends::new(choices().filter_map(|notes| notes.first()));
        let exits = Ends::new(choices().filter_map(|notes| notes.last()));
        let ChoicesBuilder { size, notes, costs, .. } = self;
        Choices { size, notes, costs, held, entries, exits }
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
