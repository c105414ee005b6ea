//! From musical time to seconds and back.

use super::quarters::Quarters;
use super::tempo::Tempo;
use super::timeline::Timeline;

/// When which tempo begins, and so how moments of a score become seconds.
///
/// Musical time is exact; seconds are what a clock shows, with the precision of `f64`. Moments on
/// the grid of [`Quarters::GRID`] come back exactly from their seconds, for a day at any tempo
/// that music is played in.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Quarters, Tempo, TempoMap, Timeline};
/// let half = Tempo::new(60, 1).unwrap();
/// let map = TempoMap::of(&Timeline::of([(Quarters::whole(2), half)]));
/// assert_eq!(map.seconds_at(Quarters::whole(4)), 3.0); // two at 120, two at 60
/// assert_eq!(map.moment_at(3.0), Some(Quarters::whole(4)));
/// assert_eq!(map.moment_at(-1.0), None);
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct TempoMap {
    first: Piece,
    /// In order of time.
    later: Vec<Piece>,
}

/// A tempo and when it begins.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Piece {
    from: Quarters,
    from_s: f64,
    tempo: Tempo,
}

impl Default for TempoMap {
    /// [`Tempo::USUAL`] throughout.
    fn default() -> TempoMap {
        TempoMap::steady(Tempo::USUAL)
    }
}

impl TempoMap {
    /// One tempo throughout.
    #[must_use]
    pub const fn steady(tempo: Tempo) -> TempoMap {
        TempoMap { first: Piece { from: Quarters::ZERO, from_s: 0.0, tempo }, later: Vec::new() }
    }

    /// These tempi; [`Tempo::USUAL`] before the first.
    #[must_use]
    pub fn of(changes: &Timeline<Tempo>) -> TempoMap {
        let mut map = TempoMap::default();
        for (from, tempo) in changes.changes() {
            let from_s = map.last().seconds_at(*from);
            let piece = Piece { from: *from, from_s, tempo: *tempo };
            if from.is_zero() { map.first = piece } else { map.later.push(piece) }
        }
        map
    }

    /// Seconds from the beginning.
    #[must_use]
    pub fn seconds_at(&self, moment: Quarters) -> f64 {
        self.piece_at(moment).seconds_at(moment)
    }

    /// The moment that comes after so many seconds, on the grid of [`Quarters::nearest`]; `None`
    /// for a negative or endless time.
    #[must_use]
    pub fn moment_at(&self, seconds: f64) -> Option<Quarters> {
        if seconds.is_nan() || seconds < 0.0 {
            return None;
        }
        let after = self.later.partition_point(|piece| piece.from_s <= seconds);
        self.piece_before(after).moment_at(seconds)
    }

    /// The tempo at a moment.
    #[must_use]
    pub fn tempo_at(&self, moment: Quarters) -> Tempo {
        self.piece_at(moment).tempo
    }

    /// The tempi in order, each with the moment from which it holds, the first from the beginning.
    pub fn changes(&self) -> impl Iterator<Item = (Quarters, Tempo)> {
        let pieces = std::iter::once(&self.first).chain(&self.later);
        pieces.map(|piece| (piece.from, piece.tempo))
    }

    fn piece_at(&self, moment: Quarters) -> Piece {
        self.piece_before(self.later.partition_point(|piece| piece.from <= moment))
    }

    /// The last piece before the later one with this index.
    fn piece_before(&self, index: usize) -> Piece {
        let before = index.checked_sub(1).and_then(|index| self.later.get(index));
        before.copied().unwrap_or(self.first)
    }

    fn last(&self) -> Piece {
        self.piece_before(self.later.len())
    }
}

impl Piece {
    fn seconds_at(self, moment: Quarters) -> f64 {
        self.from_s + (moment.to_f64() - self.from.to_f64()) * self.tempo.quarter_s()
    }

    fn moment_at(self, seconds: f64) -> Option<Quarters> {
        Quarters::nearest(self.from.to_f64() + (seconds - self.from_s) / self.tempo.quarter_s())
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn map(changes: &[(u64, u64)]) -> TempoMap {
        let changes = changes.iter().map(|(eighths, a_minute)| {
            (Quarters::new(*eighths, 2).unwrap(), Tempo::new(*a_minute, 1).unwrap())
        });
        TempoMap::of(&Timeline::of(changes))
    }

    /// By hand: two quarters at 120, two at 60, then 240.
    #[test]
    fn tempi_add_up() {
        let map = map(&[(8, 240), (4, 60)]);
        for (eighths, seconds, a_minute) in
            [(0, 0.0, 120), (2, 0.5, 120), (4, 1.0, 60), (7, 2.5, 60), (12, 3.5, 240)]
        {
            let moment = Quarters::new(eighths, 2).unwrap();
            assert_eq!(map.seconds_at(moment), seconds, "{moment}");
            assert_eq!(map.moment_at(seconds), Some(moment), "{seconds}");
            assert_eq!(map.tempo_at(moment), Tempo::new(a_minute, 1).unwrap(), "{moment}");
        }
        assert_eq!(map.changes().count(), 3);
    }

    #[test]
    fn a_tempo_at_the_beginning_is_the_first() {
        let map = map(&[(0, 60)]);
        assert_eq!(map, TempoMap::steady(Tempo::new(60, 1).unwrap()));
        for seconds in [-1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(map.moment_at(seconds), None);
        }
    }

    proptest! {
        /// Sixteen hours at 240, changes of tempo among them.
        #[test]
        fn moments_on_the_grid_come_back(
            changes in prop::collection::vec((0..400_000u64, 20..400u64), 0..8),
            parts in prop::collection::vec(0..u64::from(Quarters::GRID) * 230_000, 1..20),
        ) {
            let map = map(&changes);
            for parts in parts {
                let moment = Quarters::new(parts, Quarters::GRID).unwrap();
                prop_assert_eq!(map.moment_at(map.seconds_at(moment)), Some(moment));
            }
        }

        #[test]
        fn time_goes_forward(
            changes in prop::collection::vec((0..400u64, 20..400u64), 0..8),
            one in 0..500u64,
            other in 0..500u64,
        ) {
            let map = map(&changes);
            let [one, other] = [one, other].map(|eighths| Quarters::new(eighths, 2).unwrap());
            prop_assert_eq!(one < other, map.seconds_at(one) < map.seconds_at(other));
        }
    }
}
