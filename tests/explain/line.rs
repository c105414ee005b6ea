//! A line while it is written, note after note.

use fretloom_theory::{NamedPitch, Note, Pitch};

use crate::dice::Dice;
use crate::grid::{Slot, quarters};
use crate::harmony::ThreeNotes;

/// No note lies lower or higher, MIDI numbers.
pub(crate) const LOWEST: i32 = 50;
pub(crate) const HIGHEST: i32 = 84;

/// A line up to now.
pub(crate) struct Line {
    notes: Vec<(Slot, i32)>,
    waiting: Option<Waiting>,
    /// Approach notes that filled the place kept for them, each with its segment.
    pub(crate) led: Vec<(usize, usize)>,
}

/// A place kept for an approach note into whatever comes next.
struct Waiting {
    slot: Slot,
    segment: usize,
    pair: [ThreeNotes; 2],
}

impl Line {
    pub(crate) fn new() -> Line {
        Line { notes: Vec::new(), waiting: None, led: Vec::new() }
    }

    /// The pitch of the last note; at the beginning one in the middle of the neck.
    pub(crate) fn last(&self) -> i32 {
        self.notes.last().map_or(64, |(_, pitch)| *pitch)
    }

    pub(crate) fn pitch(&self, index: usize) -> i32 {
        self.notes[index].1
    }

    pub(crate) fn onset(&self, index: usize) -> u32 {
        self.notes[index].0.at
    }

    pub(crate) fn len(&self) -> usize {
        self.notes.len()
    }

    /// Writes a note and says its index.
    pub(crate) fn write(&mut self, slot: Slot, pitch: i32, dice: &mut Dice) -> usize {
        if let Some(waiting) = self.waiting.take() {
            let sides = if dice.happens(70) { [-1, 1] } else { [1, -1] };
            let mut leading = sides.map(|side| pitch + side).into_iter();
            if let Some(leading) = leading.find(|note| !waiting.pair.iter().any(|t| t.has(*note))) {
                self.led.push((waiting.segment, self.notes.len()));
                self.notes.push((waiting.slot, leading));
            }
        }
        self.notes.push((slot, pitch));
        self.notes.len() - 1
    }

    /// Keeps a place for an approach note into the next note that is written.
    pub(crate) fn keep(&mut self, slot: Slot, segment: usize, pair: [ThreeNotes; 2]) {
        self.waiting = Some(Waiting { slot, segment, pair });
    }

    pub(crate) fn notes(&self) -> Vec<Note> {
        self.notes.iter().map(|(slot, pitch)| note(*slot, *pitch)).collect()
    }
}

fn note(slot: Slot, pitch: i32) -> Note {
    let pitch = Pitch::from_midi(u8::try_from(pitch).unwrap()).unwrap();
    Note::new(quarters(slot.at), quarters(slot.length), NamedPitch::everyday(pitch)).unwrap()
}
