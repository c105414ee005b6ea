//! From quarter notes to seconds.

use fretloom_theory::{Tempo, TempoMap, Timeline};

use super::raw_note::RawNote;
use super::time::Time;

/// A tempo and when it begins.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct TempoChange {
    pub(super) from: Time,
    pub(super) tempo: Tempo,
    /// How long a quarter note is from here on, in seconds.
    pub(super) quarter_s: f64,
}

/// Where which tempo begins, in the floats of [`Time`].
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Clock {
    /// In order of time; never empty.
    pieces: Vec<Piece>,
}

#[derive(Clone, Copy, PartialEq, Debug)]
struct Piece {
    from_quarter: f64,
    from_s: f64,
    quarter_s: f64,
}

/// The tempi as a score has them.
pub(super) fn tempo_map(changes: &[TempoChange]) -> TempoMap {
    let changes = changes.iter().map(|change| (change.from.exact(), change.tempo));
    TempoMap::of(&Timeline::of(changes))
}

impl Clock {
    /// The clock of these changes, in any order; of two at one place the later in the list holds.
    pub(super) fn of(changes: &[TempoChange]) -> Clock {
        let mut changes = changes.to_vec();
        changes.sort_by(|one, other| one.from.summed().total_cmp(&other.from.summed()));
        let quarter_s = Tempo::USUAL.quarter_s();
        let mut last = Piece { from_quarter: 0.0, from_s: 0.0, quarter_s };
        let mut pieces = vec![last];
        for change in changes {
            let from_quarter = change.from.summed();
            let from_s = last.seconds_at(from_quarter);
            last = Piece { from_quarter, from_s, quarter_s: change.quarter_s };
            pieces.push(last);
        }
        Clock { pieces }
    }

    /// When each note is played and how long, in the order given; where a grace note would come
    /// before the beginning, all come so much later.
    pub(super) fn played(&self, notes: &[RawNote]) -> Vec<(f64, f64)> {
        let times: Vec<(f64, f64)> = notes.iter().map(|note| self.seconds(note)).collect();
        let first = times.iter().map(|(onset_s, _)| *onset_s).fold(0.0, f64::min);
        times.into_iter().map(|(onset_s, duration_s)| (onset_s - first, duration_s)).collect()
    }

    fn seconds(&self, note: &RawNote) -> (f64, f64) {
        let main_s = self.seconds_at(note.from);
        match note.grace {
            Some((grace, after)) => {
                let step_s = grace.step_s(after.map(|after| main_s - self.seconds_at(after)));
                (main_s - f64::from(grace.steps()) * step_s, step_s)
            }
            None => (main_s, self.seconds_at(note.from.plus(note.duration)) - main_s),
        }
    }

    /// Seconds from the beginning.
    fn seconds_at(&self, moment: Time) -> f64 {
        let quarter = moment.summed();
        let after = self.pieces.partition_point(|piece| piece.from_quarter <= quarter);
        let piece = self.pieces.get(after.saturating_sub(1)).or_else(|| self.pieces.first());
        piece.map_or(0.0, |piece| piece.seconds_at(quarter))
    }
}

impl Piece {
    fn seconds_at(&self, quarter: f64) -> f64 {
        self.from_s + (quarter - self.from_quarter) * self.quarter_s
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: two quarters at 120, two at 60, then 240.
    #[test]
    fn tempi_add_up() {
        let change = |quarters, a_minute| {
            let (from, quarter_s) = (Time::of(quarters, 1.0), 60.0 / a_minute);
            TempoChange { from, tempo: Tempo::nearest(a_minute).unwrap(), quarter_s }
        };
        let changes = [change(4.0, 240.0), change(2.0, 60.0)];
        let clock = Clock::of(&changes);
        for (quarter, seconds) in [(0.0, 0.0), (1.0, 0.5), (2.0, 1.0), (3.5, 2.5), (6.0, 3.5)] {
            let moment = Time::of(quarter, 1.0);
            assert_eq!(clock.seconds_at(moment), seconds, "{quarter}");
            assert_eq!(tempo_map(&changes).seconds_at(moment.exact()), seconds, "{quarter}");
        }
    }
}
