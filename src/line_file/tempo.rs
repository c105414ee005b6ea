//! From quarter notes to seconds.

/// Where which tempo begins: quarter notes to seconds, piece by piece.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct TempoMap {
    /// In order of time; never empty.
    pieces: Vec<Piece>,
}

#[derive(Clone, Copy, PartialEq, Debug)]
struct Piece {
    from_quarter: f64,
    from_s: f64,
    quarter_s: f64,
}

/// A tempo and where it begins.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct TempoChange {
    /// In quarter notes from the beginning.
    pub(super) at_quarter: f64,
    /// How long a quarter note is from here on, in seconds.
    pub(super) quarter_s: f64,
}

impl TempoMap {
    /// How long a quarter note is until something else is said: 120 a minute, the default of MIDI.
    pub(super) const USUAL_QUARTER_S: f64 = 0.5;

    /// The map of these changes, in any order; of two at one place the later in the list holds.
    pub(super) fn of(mut changes: Vec<TempoChange>) -> TempoMap {
        changes.sort_by(|one, other| one.at_quarter.total_cmp(&other.at_quarter));
        let quarter_s = TempoMap::USUAL_QUARTER_S;
        let mut last = Piece { from_quarter: 0.0, from_s: 0.0, quarter_s };
        let mut pieces = vec![last];
        for change in changes {
            let from_s = last.seconds_at(change.at_quarter);
            last = Piece { from_quarter: change.at_quarter, from_s, quarter_s: change.quarter_s };
            pieces.push(last);
        }
        TempoMap { pieces }
    }

    /// Seconds from the beginning.
    pub(super) fn seconds_at(&self, quarter: f64) -> f64 {
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
    fn tempos_add_up() {
        let change = |at_quarter, quarter_s| TempoChange { at_quarter, quarter_s };
        let map = TempoMap::of(vec![change(4.0, 0.25), change(2.0, 1.0)]);
        for (quarter, seconds) in [(0.0, 0.0), (1.0, 0.5), (2.0, 1.0), (3.5, 2.5), (6.0, 3.5)] {
            assert_eq!(map.seconds_at(quarter), seconds, "{quarter}");
        }
    }
}
