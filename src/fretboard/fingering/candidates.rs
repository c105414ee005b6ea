//! Every way to play one note at one place.

use super::fingered_note::FingeredNote;
use super::query::FingeringQuery;
use crate::{Finger, Hand, HandPosition, Neck, Place};

/// By how many frets each finger may leave its own, counting one finger a fret: the first by one
/// down, the second and the third by one either way, the fourth by one down or two up.
const DEVIATIONS: [(Finger, &[i32]); 4] = [
    (Finger::First, &[0, -1]),
    (Finger::Second, &[0, -1, 1]),
    (Finger::Third, &[0, -1, 1]),
    (Finger::Fourth, &[0, -1, 1, 2]),
];

/// Every way to play `place` that the query allows, the most natural first.
pub(super) fn candidates(
    neck: &Neck,
    query: &FingeringQuery,
    place: Place,
) -> impl Iterator<Item = FingeredNote> {
    let open = place.fret.is_open().then(|| open(neck, place));
    let fretted = (!place.fret.is_open()).then(|| fretted(neck, query.hand(), place));
    let notes = open.into_iter().flatten().chain(fretted.into_iter().flatten());
    notes.filter(move |note| query.allows_position(note.position))
}

fn open(neck: &Neck, place: Place) -> impl Iterator<Item = FingeredNote> {
    positions(neck).map(move |position| FingeredNote { place, finger: Finger::Open, position })
}

fn fretted(neck: &Neck, hand: Hand, place: Place) -> impl Iterator<Item = FingeredNote> {
    let fret = i32::from(place.fret.number());
    let note = move |finger: Finger, deviation: i32| {
        let position = fret - deviation - i32::from(finger.number()) + 1;
        let position = HandPosition::new(u8::try_from(position).ok()?)?;
        Some(FingeredNote { place, finger, position })
    };
    DEVIATIONS
        .into_iter()
        .flat_map(move |(finger, by)| by.iter().filter_map(move |by| note(finger, *by)))
        .filter(move |note| is_in_reach(neck, hand, *note))
}

/// Where a hand may stand: from the first fret behind the nut or the capo to the last one.
pub(super) fn positions(neck: &Neck) -> impl Iterator<Item = HandPosition> {
    let first = neck.begins_at().number() + 1;
    let last = neck.tuning().last_fret().number().max(first);
    (first..=last).filter_map(HandPosition::new)
}

fn is_in_reach(neck: &Neck, hand: Hand, note: FingeredNote) -> bool {
    let behind = neck.begins_at().number();
    let steps = note.finger.number().saturating_sub(1);
    note.position.number() > behind
        && (steps == 0 || hand.reaches(neck, note.position.fret(), note.place.fret, steps))
}
