//! A line on the neck: where each note is played, and by which finger.
//!
//! For now the lowest fret wins and the hand follows it.

use std::fmt;

use fretloom_theory::Pitch;

use crate::{Finger, Fret, HandPosition, Neck, Place, StringNumber, StringSet};

/// One note of a line.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LineNote {
    /// When it begins, in seconds from the beginning of the line.
    pub onset_s: f64,
    /// How long it sounds, in seconds.
    pub duration_s: f64,
    /// What sounds.
    pub pitch: Pitch,
    /// What of its place is settled.
    pub pin: Pin,
}

/// What of a note's place is settled beforehand; nothing by default.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub struct Pin {
    /// The string, if it is settled.
    pub string: Option<StringNumber>,
    /// The fret, counted on the neck, if it is settled.
    pub fret: Option<Fret>,
}

/// A note with its place and its finger.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FingeredNote {
    /// Where it is played.
    pub place: Place,
    /// Which finger.
    pub finger: Finger,
    /// Where the hand stands.
    pub position: HandPosition,
}

/// What a player wants of a fingering.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub struct FingeringWishes {
    /// The strings that may be used; all of them where none are named.
    pub strings: Option<StringSet>,
}

/// One way to play a line.
#[derive(Clone, PartialEq, Debug)]
pub struct Way {
    notes: Vec<FingeredNote>,
}

impl Way {
    /// What it costs; less is better.
    #[must_use]
    pub fn cost(&self) -> f64 {
        self.notes.iter().map(|note| f64::from(note.place.fret.number())).sum()
    }

    /// Why it may be chosen.
    #[must_use]
    pub fn why(&self) -> &str {
        "every note at its lowest fret"
    }

    /// The notes, in the order given.
    #[must_use]
    pub fn notes(&self) -> &[FingeredNote] {
        &self.notes
    }
}

/// Why there is no way.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct FingeringError {
    /// Which note, counted from 0.
    pub note: usize,
}

impl fmt::Display for FingeringError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "note {} has no place; expected one that the neck has", self.note + 1)
    }
}

impl std::error::Error for FingeringError {}

/// The ways to play `notes`, the best first, at most `count`.
///
/// # Errors
///
/// Where a note has no place that its pin allows.
pub fn ways(
    neck: &Neck,
    notes: &[LineNote],
    wishes: &FingeringWishes,
    count: usize,
) -> Result<Vec<Way>, FingeringError> {
    let place = |(index, note): (usize, &LineNote)| {
        fingered(neck, note, wishes).ok_or(FingeringError { note: index })
    };
    let notes: Vec<FingeredNote> = notes.iter().enumerate().map(place).collect::<Result<_, _>>()?;
    Ok(std::iter::once(Way { notes }).take(count).collect())
}

fn fingered(neck: &Neck, note: &LineNote, wishes: &FingeringWishes) -> Option<FingeredNote> {
    let allowed = |place: &Place| {
        wishes.strings.is_none_or(|set| set.contains(place.string))
            && note.pin.string.is_none_or(|string| string == place.string)
            && note.pin.fret.is_none_or(|fret| fret == place.fret)
    };
    let place = neck.places_of(note.pitch).filter(allowed).min_by_key(|place| place.fret)?;
    let finger = if place.fret.is_open() { Finger::Open } else { Finger::First };
    let position = HandPosition::new(place.fret.number()).unwrap_or(HandPosition::FIRST);
    Some(FingeredNote { place, finger, position })
}
