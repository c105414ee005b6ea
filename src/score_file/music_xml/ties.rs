//! Notes that are tied over.

use std::collections::HashMap;

use fretloom_theory::{Pitch, Voice};

use super::raw_note::RawNote;
use super::time::Time;

/// How far apart, in quarter notes, the end of a note and the beginning of its other half may lie:
/// more than decimals lose, less than any note.
const CLOSE_QUARTERS: f64 = 0.01;

/// The notes in their order, those that are tied as one.
///
/// A half belongs to what ends there at its pitch in its own voice; where that has none, in another
/// voice of its staff, since voices of some programs change within a tie.
pub(super) fn joined(notes: Vec<RawNote>) -> Vec<RawNote> {
    let mut joined: Vec<RawNote> = Vec::with_capacity(notes.len());
    let mut waiting = Waiting::default();
    for note in notes {
        let to = note.from.plus(note.duration);
        let (staff, pitch, voice) = (note.staff, note.pitch.pitch(), note.voice);
        let goes_on = note.tie.goes_on;
        let before = if note.tie.comes_over { waiting.taken(&note) } else { None };
        let index = before.unwrap_or(joined.len());
        match joined.get_mut(index) {
            Some(first) => {
                first.duration = to.minus(first.from);
                first.ties.push(note.from.quarters());
            }
            None => joined.push(note),
        }
        if goes_on {
            waiting.add(staff, pitch, Half { voice, index, to });
        }
    }
    joined
}

/// A note that waits for its other half.
#[derive(Clone, Copy, Debug)]
struct Half {
    voice: Voice,
    index: usize,
    to: Time,
}

/// The notes that wait for their other half, by staff and pitch.
#[derive(Default, Debug)]
struct Waiting {
    halves: HashMap<(u32, Pitch), Vec<Half>>,
}

impl Waiting {
    /// The index of the note that goes on with this one.
    fn taken(&mut self, note: &RawNote) -> Option<usize> {
        let halves = self.halves.get_mut(&(note.staff, note.pitch.pitch()))?;
        let fits = |half: &Half| (half.to.to_f64() - note.from.to_f64()).abs() < CLOSE_QUARTERS;
        let own = halves.iter().position(|half| half.voice == note.voice && fits(half));
        let at = own.or_else(|| halves.iter().position(fits))?;
        Some(halves.swap_remove(at).index)
    }

    /// Of one voice only the last waits.
    fn add(&mut self, staff: u32, pitch: Pitch, half: Half) {
        let halves = self.halves.entry((staff, pitch)).or_default();
        halves.retain(|waiting| waiting.voice != half.voice);
        halves.push(half);
    }
}
