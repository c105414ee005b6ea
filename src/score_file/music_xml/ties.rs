//! Notes that are tied over.

use std::collections::HashMap;

use fretloom_theory::Pitch;

use super::time::Time;

/// How far apart, in quarter notes, the end of a note and the beginning of its other half may lie:
/// more than decimals lose, less than any note.
const CLOSE_QUARTERS: f64 = 0.01;

/// The notes that wait for their other half, by staff and pitch.
#[derive(Default, Debug)]
pub(super) struct Ties {
    waiting: HashMap<(u32, Pitch), (usize, Time)>,
}

impl Ties {
    /// The index of the note that goes on at `from`, if one waits that ends there.
    pub(super) fn taken(&mut self, staff: u32, pitch: Pitch, from: Time) -> Option<usize> {
        let (index, end) = self.waiting.remove(&(staff, pitch))?;
        ((end.to_f64() - from.to_f64()).abs() < CLOSE_QUARTERS).then_some(index)
    }

    /// The note `index`, which ends at `to`, goes on there.
    pub(super) fn wait(&mut self, staff: u32, pitch: Pitch, index: usize, to: Time) {
        self.waiting.insert((staff, pitch), (index, to));
    }
}
