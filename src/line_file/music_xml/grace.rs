//! Grace notes: short, and before the beat.

use super::part::Reading;
use crate::line_file::tempo::TempoMap;

/// How long a grace note is, in seconds, where there is room before its main note. A quick slide or
/// hammer takes about so long; common practice, no source. More than the 30 ms within which notes
/// count as sounding together.
const GRACE_S: f64 = 0.07;

/// How far before its main note a grace note comes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Grace {
    /// How many steps, 1 for the last one.
    steps: u32,
    /// How many steps all grace notes of the main note take.
    of: u32,
    /// The quarter note where the note before them began, which they may not reach.
    after_quarter: Option<f64>,
}

impl Grace {
    /// How long one step is, in seconds, before a main note at `main_s`.
    pub(super) fn step_s(self, main_s: f64, tempi: &TempoMap) -> f64 {
        let Some(after) = self.after_quarter else { return GRACE_S };
        let room_s = (main_s - tempi.seconds_at(after)).max(0.0);
        GRACE_S.min(room_s / f64::from(self.of + 1))
    }

    /// How long before the main note at `main_s` it begins, in seconds.
    pub(super) fn before_s(self, main_s: f64, tempi: &TempoMap) -> f64 {
        f64::from(self.steps) * self.step_s(main_s, tempi)
    }
}

impl Reading<'_> {
    /// Gives the grace notes that wait their place before the main note at `from_quarter`. Those
    /// that are a chord, marked by the same number of steps so far, stay together.
    pub(super) fn settle_graces(&mut self, from_quarter: f64) {
        let after_quarter = self.last_onset.filter(|onset| *onset < from_quarter);
        let waiting = std::mem::take(&mut self.graces);
        let numbers: Vec<u32> = waiting.iter().map(|index| self.grace_number(*index)).collect();
        let of = numbers.last().copied().unwrap_or_default();
        for (index, number) in waiting.into_iter().zip(numbers) {
            if let Some(note) = self.part.notes.get_mut(index) {
                note.from_quarter = from_quarter;
                note.grace = Some(Grace { steps: of - number + 1, of, after_quarter });
            }
        }
    }

    /// The grace note that a new one is: a chord's other note has the number of the one before.
    pub(super) fn new_grace(&self, is_chord: bool) -> Grace {
        let last = self.graces.last().map_or(0, |index| self.grace_number(*index));
        let number = if is_chord { last.max(1) } else { last.saturating_add(1) };
        Grace { steps: number, of: number, after_quarter: None }
    }

    /// Which of the waiting grace notes, counted from 1.
    fn grace_number(&self, index: usize) -> u32 {
        let note = self.part.notes.get(index);
        note.and_then(|note| note.grace).map_or(0, |grace| grace.steps)
    }
}
