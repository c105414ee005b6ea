//! Everything under one hand.

use std::collections::BTreeSet;

use fretloom_theory::{Pitch, TriadPair};

use super::hidden::Hidden;
use super::place::{ViewPlace, notes_of_pair, number_by_pitch};
use crate::{Finger, HandPosition, Neck, Place};
use fretloom_theory::WhichTriad;

/// The places of a pair under a hand in its position: one finger a fret over four frets, and the
/// pitches that these lack, where the first finger stretches a fret back or the fourth a fret up.
///
/// A pitch that the four frets lack is shown at every place where a stretch reaches it; where that
/// is more than one place, the player has the choice. A pitch that the four frets have is not shown
/// at a stretch as well. Open strings belong to the position next to where they begin: on most
/// instruments the first, and behind a capo the first above it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PositionView {
    position: HandPosition,
    open_strings: OpenStrings,
}

/// Which open strings are shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum OpenStrings {
    /// Those that begin where this position stretches back to, or above.
    WithinReach,
    Always,
}

impl PositionView {
    /// The hand in `position`.
    #[must_use]
    pub const fn at(position: HandPosition) -> PositionView {
        PositionView { position, open_strings: OpenStrings::WithinReach }
    }

    /// With the open strings of the pair, however far up the hand is.
    #[must_use]
    pub const fn with_open_strings(mut self) -> PositionView {
        self.open_strings = OpenStrings::Always;
        self
    }

    /// Where the hand is.
    #[must_use]
    pub const fn position(&self) -> HandPosition {
        self.position
    }

    /// The places under the hand by pitch, and what is out of the box.
    pub(super) fn places(&self, neck: &Neck, pair: TriadPair) -> (Vec<ViewPlace>, Vec<Hidden>) {
        let all = || notes_of_pair(neck, pair);
        let under = |stretched: bool| {
            all().filter_map(move |note| {
                let (finger, stretches) = self.finger_on(neck, note.0)?;
                let place = ViewPlace::plain(note);
                let place = ViewPlace { finger: Some(finger), stretched: stretches, ..place };
                (stretches == stretched).then_some(place)
            })
        };
        let mut places: Vec<ViewPlace> = under(false).collect();
        let inside: BTreeSet<Pitch> = places.iter().map(|place| place.pitch).collect();
        let stretches = under(true).filter(|place| !inside.contains(&place.pitch));
        let mut stretches: Vec<ViewPlace> = stretches.collect();
        mark_choices(&mut stretches);
        let lost = lost(pair, &inside, &stretches);
        places.extend(stretches);
        number_by_pitch(&mut places);
        (places, lost)
    }

    /// Which finger takes a place, and does it stretch for it?
    fn finger_on(&self, neck: &Neck, place: Place) -> Option<(Finger, bool)> {
        let position = self.position.number();
        if place.fret.is_open() {
            let begins = neck.tuning().string(place.string)?.sounds_from().number();
            let shown = self.open_strings == OpenStrings::Always || position <= begins + 1;
            return shown.then_some((Finger::Open, false));
        }
        match i16::from(place.fret.number()) - i16::from(position) {
            -1 => Some((Finger::First, true)),
            0 => Some((Finger::First, false)),
            1 => Some((Finger::Second, false)),
            2 => Some((Finger::Third, false)),
            3 => Some((Finger::Fourth, false)),
            4 => Some((Finger::Fourth, true)),
            _ => None,
        }
    }
}

/// Marks the stretches that reach one pitch at two places or more.
fn mark_choices(stretches: &mut [ViewPlace]) {
    let pitches: Vec<Pitch> = stretches.iter().map(|place| place.pitch).collect();
    for place in stretches {
        place.is_choice = pitches.iter().filter(|pitch| **pitch == place.pitch).count() > 1;
    }
}

/// The pitches of the pair between the lowest and the highest in the box that it lacks.
fn lost(pair: TriadPair, inside: &BTreeSet<Pitch>, stretches: &[ViewPlace]) -> Vec<Hidden> {
    let (Some(lowest), Some(highest)) = (inside.first(), inside.last()) else {
        return Vec::new();
    };
    let between = (lowest.midi()..highest.midi()).filter_map(Pitch::from_midi);
    let of_pair = between.filter(|pitch| WhichTriad::with(pair, pitch.pitch_class()).is_some());
    let lost = of_pair.filter(|pitch| !inside.contains(pitch));
    let hidden = lost.map(|pitch| match stretches.iter().any(|place| place.pitch == pitch) {
        true => Hidden::OutOfBox(pitch),
        false => Hidden::OutOfReach(pitch),
    });
    hidden.collect()
}
