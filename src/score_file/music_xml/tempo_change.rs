//! Tempi as a score has them.

use fretloom_theory::{Tempo, TempoMap, Timeline};

use super::time::Time;

/// A tempo and when it begins.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct TempoChange {
    pub(super) from: Time,
    pub(super) tempo: Tempo,
}

/// The map of these changes, in any order; of two at one place the later in the list holds.
pub(super) fn tempo_map(changes: &[TempoChange]) -> TempoMap {
    let changes = changes.iter().map(|change| (change.from.quarters(), change.tempo));
    TempoMap::of(&Timeline::of(changes))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: two quarters at 120, two at 60, then 240.
    #[test]
    fn tempi_add_up() {
        let change = |quarters, a_minute| {
            let from = Time::of(quarters, 1.0);
            TempoChange { from, tempo: Tempo::nearest(a_minute).unwrap() }
        };
        let map = tempo_map(&[change(4.0, 240.0), change(2.0, 60.0)]);
        for (quarter, seconds) in [(0.0, 0.0), (1.0, 0.5), (2.0, 1.0), (3.5, 2.5), (6.0, 3.5)] {
            let moment = Time::of(quarter, 1.0);
            assert_eq!(map.seconds_at(moment.quarters()), seconds, "{quarter}");
        }
    }
}
