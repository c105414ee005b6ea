//! A string for each of several notes that sound together.

use super::choices::TooMany;
use super::fingered_note::FingeredNote;
use crate::{Finger, HandPosition, Place, StringNumber};

/// Calls `visit` with every choice of one place a note in which no string is used twice, and on the
/// way there with every beginning of one.
pub(super) fn choose_places(
    choices: &[Vec<Place>],
    chosen: &mut Vec<Place>,
    visit: &mut impl FnMut(&[Place]) -> Result<(), TooMany>,
) -> Result<(), TooMany> {
    visit(chosen)?;
    for &place in choices.get(chosen.len()).into_iter().flatten() {
        if chosen.iter().all(|other| other.string != place.string) {
            chosen.push(place);
            choose_places(choices, chosen, visit)?;
            chosen.pop();
        }
    }
    Ok(())
}

const STRINGS: usize = StringNumber::HIGHEST.number() as usize;

/// Is there a choice of one place a note in which no string is used twice?
pub(super) fn have_strings_each(choices: &[Vec<Place>]) -> bool {
    let mut owners = [None; STRINGS];
    (0..choices.len()).all(|note| finds_a_string(choices, note, &mut owners, &mut 0))
}

/// Gives `note` a string, moving other notes to other strings where that helps (an augmenting path
/// of a bipartite matching). `asked` has a bit for each string already asked.
fn finds_a_string(
    choices: &[Vec<Place>],
    note: usize,
    owners: &mut [Option<usize>; STRINGS],
    asked: &mut u16,
) -> bool {
    choices[note].iter().any(|place| {
        let string = usize::from(place.string.number() - 1);
        if *asked & (1 << string) != 0 {
            return false;
        }
        *asked |= 1 << string;
        let free = match owners[string] {
            None => true,
            Some(owner) => finds_a_string(choices, owner, owners, asked),
        };
        if free {
            owners[string] = Some(note);
        }
        free
    })
}

/// The first finger on the lowest fret and the others wherever they have to go.
pub(super) fn strained(places: &[Place]) -> Vec<FingeredNote> {
    let fretted = places.iter().filter(|place| !place.fret.is_open());
    let lowest = fretted.map(|place| place.fret.number()).min();
    let position = lowest.and_then(HandPosition::new).unwrap_or(HandPosition::FIRST);
    let finger = |place: &Place| match place.fret.number().checked_sub(position.number()) {
        None => Finger::Open,
        Some(0) => Finger::First,
        Some(1) => Finger::Second,
        Some(2) => Finger::Third,
        Some(_) => Finger::Fourth,
    };
    let note = |place: &Place| FingeredNote { place: *place, finger: finger(place), position };
    places.iter().map(note).collect()
}
