//! One finger on one place, and where the hand is meanwhile.

use super::FingeringQuery;
use crate::{Finger, Hand, HandPosition, Neck, Place};

/// A finger on a place with the hand in a position; an open string has a hand position too, since
/// the hand is somewhere.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct Touch {
    pub(super) place: Place,
    pub(super) finger: Finger,
    pub(super) hand: HandPosition,
}

/// How far from its own fret, counting one finger a fret, each finger may go: the first one back,
/// the fourth two up, every one to the fret below or above.
const DEVIATIONS: [(Finger, &[i32]); 4] = [
    (Finger::First, &[0, -1]),
    (Finger::Second, &[0, -1, 1]),
    (Finger::Third, &[0, -1, 1]),
    (Finger::Fourth, &[0, -1, 1, 2]),
];

/// Every way to touch `place` that the query allows, the most natural first.
pub(super) fn touches(
    neck: &Neck,
    query: &FingeringQuery,
    place: Place,
) -> impl Iterator<Item = Touch> {
    let open = place.fret.is_open().then(|| open_touches(neck, place));
    let fretted = (!place.fret.is_open()).then(|| fretted_touches(neck, query.hand(), place));
    let touches = open.into_iter().flatten().chain(fretted.into_iter().flatten());
    touches.filter(move |touch| query.allows_hand(touch.hand))
}

fn open_touches(neck: &Neck, place: Place) -> impl Iterator<Item = Touch> {
    positions(neck).map(move |hand| Touch { place, finger: Finger::Open, hand })
}

fn fretted_touches(neck: &Neck, hand: Hand, place: Place) -> impl Iterator<Item = Touch> {
    let fret = i32::from(place.fret.number());
    let touch = move |finger: Finger, deviation: i32| {
        let position = fret - deviation - i32::from(finger.number()) + 1;
        let position = HandPosition::new(u8::try_from(position).ok()?)?;
        Some(Touch { place, finger, hand: position })
    };
    DEVIATIONS
        .into_iter()
        .flat_map(move |(finger, by)| by.iter().filter_map(move |by| touch(finger, *by)))
        .filter(move |touch| is_in_reach(neck, hand, *touch))
}

/// Where a hand may stand: from the first fret behind the nut or the capo to the last one.
fn positions(neck: &Neck) -> impl Iterator<Item = HandPosition> {
    let first = neck.begins_at().number() + 1;
    let last = neck.tuning().last_fret().number().max(first);
    (first..=last).filter_map(HandPosition::new)
}

fn is_in_reach(neck: &Neck, hand: Hand, touch: Touch) -> bool {
    let behind = neck.begins_at().number();
    let steps = touch.finger.number().saturating_sub(1);
    touch.hand.number() > behind
        && (steps == 0 || hand.reaches(neck, touch.hand.fret(), touch.place.fret, steps))
}
