//! A place of a pair as a view shows it.

use fretloom_theory::{Pitch, TriadPair};

use crate::{Finger, Neck, Place};
use fretloom_theory::WhichTriad;

/// A place of a pair as a view shows it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ViewPlace {
    /// Where.
    pub place: Place,
    /// What sounds there.
    pub pitch: Pitch,
    /// Whose note it is.
    pub which: WhichTriad,
    /// Which finger takes it; none where the view gives no fingers or the hand cannot.
    pub finger: Option<Finger>,
    /// Does the finger leave its fret for it?
    pub stretched: bool,
    /// Is there another stretch for the same pitch, so that the player chooses?
    pub is_choice: bool,
    /// When it is played, from 1. Notes that are held together, and places of one pitch, share
    /// their number.
    pub order: usize,
}

impl ViewPlace {
    /// A place without finger or order.
    pub(super) fn plain((place, pitch, which): (Place, Pitch, WhichTriad)) -> ViewPlace {
        let (finger, stretched, is_choice, order) = (None, false, false, 0);
        ViewPlace { place, pitch, which, finger, stretched, is_choice, order }
    }
}

/// Every place of a pair, from string 1 up, each from its open note up.
pub(super) fn notes_of_pair(
    neck: &Neck,
    pair: TriadPair,
) -> impl Iterator<Item = (Place, Pitch, WhichTriad)> {
    neck.places().filter_map(move |(place, pitch)| {
        Some((place, pitch, WhichTriad::with(pair, pitch.pitch_class())?))
    })
}

/// Orders places by pitch, the string nearest the floor first, and numbers the pitches.
pub(super) fn number_by_pitch(places: &mut [ViewPlace]) {
    places.sort_by_key(|place| (place.pitch, place.place.string));
    let (mut order, mut last) = (0, None);
    for place in places {
        if last != Some(place.pitch) {
            order += 1;
            last = Some(place.pitch);
        }
        place.order = order;
    }
}
