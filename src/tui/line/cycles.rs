//! What keys go through: patterns, rhythms, ways to go on, starts, meters, views.

use fretloom_fretboard::{Neck, StringSet};
use fretloom_theory::{Direction, Inversion, Link, Meter, Pitch, Rhythm, Start, Travel};

use crate::tui::line_place::{LinePlace, LineView};
use crate::words::inversion as inversion_in_words;

/// Rhythms with their names.
const RHYTHMS: [(&str, &str); 9] = [
    ("eighths", "8"),
    ("triplets", "3:2(8 8 8)"),
    ("sixteenths", "16"),
    ("quarters", "4"),
    ("quarter triplets", "3:2(4 4 4)"),
    ("eighths with rests", "8 8 8 8 8 8 -8 8"),
    ("long and short", "4. 8"),
    ("on the ands", "-8 8"),
    ("threes against four", "8 8 -8"),
];

const METERS: [&str; 7] = ["4/4", "3/4", "5/4", "6/8", "12/8", "7/8", "2/4"];

/// How groups may follow, in the order of the key.
const TRAVELS: [Travel; 8] = [
    Travel::Linked(Link::Nearest, Direction::Up),
    Travel::Linked(Link::Nearest, Direction::Down),
    Travel::Linked(Link::Above, Direction::Up),
    Travel::Linked(Link::Below, Direction::Down),
    Travel::Ladder(Direction::Up),
    Travel::Ladder(Direction::Down),
    Travel::Stay,
    Travel::Arc,
];

/// Which way a key goes through a cycle.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Way {
    Next,
    Before,
}

/// The other values of a cycle in the order in which they come, from the one after `now`. Where that
/// is none of them, all of them.
pub(super) fn others<T: PartialEq + Clone>(all: &[T], now: &T, way: Way) -> Vec<T> {
    let at = all.iter().position(|one| one == now);
    let count = all.len();
    let index = |step: usize| match (way, at) {
        (Way::Next, Some(at)) => (at + step) % count,
        (Way::Before, Some(at)) => (at + count - step) % count,
        (Way::Next, None) => step - 1,
        (Way::Before, None) => count - step,
    };
    let steps = if at.is_some() { count.saturating_sub(1) } else { count };
    (1..=steps).filter_map(|step| all.get(index(step)).cloned()).collect()
}

pub(super) fn rhythms() -> Vec<Option<Rhythm>> {
    let read = RHYTHMS.iter().skip(1).filter_map(|(_, rhythm)| rhythm.parse().ok());
    std::iter::once(None).chain(read.map(Some)).collect()
}

/// What a rhythm is called, or how it is written.
pub(super) fn name_of_rhythm(rhythm: &Rhythm) -> String {
    let is_it = |written: &str| written.parse().as_ref() == Ok(rhythm);
    let named = RHYTHMS.iter().find(|(_, written)| is_it(written));
    named.map_or_else(|| rhythm.to_string(), |(name, _)| (*name).to_owned())
}

pub(super) fn meters() -> Vec<Meter> {
    METERS.iter().filter_map(|meter| meter.parse().ok()).collect()
}

pub(super) fn travels() -> Vec<Travel> {
    TRAVELS.to_vec()
}

/// Where a line may begin: where the hand was, on an inversion as low as it lies, or the usual way,
/// which is none.
pub(super) fn starts(near: Option<Pitch>) -> Vec<Option<Start>> {
    let lowest = Inversion::ALL.map(|inversion| Some(Start::Lowest(inversion)));
    near.map(|near| Some(Start::Near(near))).into_iter().chain(lowest).chain([None]).collect()
}

/// Where it begins, in words; nothing for where the hand was.
pub(super) fn name_of_start(start: Option<Start>) -> Option<String> {
    match start {
        Some(Start::Lowest(inversion)) => {
            Some(format!("from {}", inversion_in_words(inversion, false)))
        }
        Some(Start::Bass(_) | Start::Near(_) | Start::FromBefore) => None,
        None => Some("from the middle".to_owned()),
    }
}

/// How groups follow, in words.
pub(super) const fn name_of_travel(travel: Travel) -> &'static str {
    match travel {
        Travel::Linked(Link::Nearest, Direction::Up) => "linked up",
        Travel::Linked(Link::Nearest, Direction::Down) => "linked down",
        Travel::Linked(Link::Above, _) => "linked above",
        Travel::Linked(Link::Below, _) => "linked below",
        Travel::Ladder(Direction::Up) => "up the ladder",
        Travel::Ladder(Direction::Down) => "down the ladder",
        Travel::Stay => "stays",
        Travel::Arc => "an arc",
    }
}

/// Sets of three strings side by side, and none for all of them.
pub(super) fn string_sets(neck: &Neck) -> Vec<Option<StringSet>> {
    let sets = StringSet::neighbours(neck.tuning().string_count(), 3);
    sets.map(Some).chain([None]).collect()
}

/// The views in the order of the key, each with its first choice; a position near `fret`.
pub(super) fn views(place: LinePlace, position: LineView) -> Vec<LinePlace> {
    let view = |view| LinePlace { view, ..place };
    // A chain goes over all strings.
    let across = LinePlace { view: LineView::Across(None, 0), strings: None, ..place };
    vec![view(LineView::Anywhere), view(position), across, view(LineView::Two(0))]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_can_be_read() {
        assert_eq!(rhythms().len(), RHYTHMS.len());
        assert_eq!(meters().len(), METERS.len());
        for (name, written) in RHYTHMS {
            assert_eq!(name_of_rhythm(&written.parse().unwrap()), name);
        }
    }

    #[test]
    fn a_cycle_goes_round_both_ways() {
        assert_eq!(others(&[1, 2, 3], &2, Way::Next), [3, 1]);
        assert_eq!(others(&[1, 2, 3], &2, Way::Before), [1, 3]);
        assert_eq!(others(&[1, 2, 3], &9, Way::Next), [1, 2, 3]);
        assert_eq!(others(&[1, 2, 3], &9, Way::Before), [3, 2, 1]);
        assert_eq!(others(&[1], &1, Way::Next), [] as [i32; 0]);
    }
}
