//! Everything on some strings.

use fretloom_theory::TriadPair;

use super::place::{ViewPlace, notes_of_pair, number_by_pitch};
use crate::{FretRange, Hand, Ladder, Neck, Place, ShapeQuery, StringSet};

/// The places of a pair on any strings, one or more.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Neck, SetView, Tuning};
/// use fretloom_theory::{SpelledTriad, TriadPair};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let [first, second] =
///     ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(first, second).unwrap();
/// let steps = SetView::on("1".parse().unwrap()).steps(&neck, pair);
/// let frets: Vec<u8> = steps.iter().map(|step| step.frets).collect();
/// assert_eq!(frets[..6], [2, 2, 2, 1, 2, 3]); // F G A B C D F
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct SetView {
    set: StringSet,
}

/// From one place of a pair to the next one on the same string.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SetStep {
    /// The lower place.
    pub from: Place,
    /// The next one.
    pub to: Place,
    /// How many frets lie between: semitones, wherever the string begins.
    pub frets: u8,
    /// How far a hand shifts for it, in millimetres.
    pub shift_mm: f64,
}

impl SetView {
    /// What lies on the strings of `set`; what is beyond the instrument is not there.
    #[must_use]
    pub const fn on(set: StringSet) -> SetView {
        SetView { set }
    }

    /// Its strings.
    #[must_use]
    pub const fn set(&self) -> StringSet {
        self.set
    }

    /// The places by pitch.
    pub(super) fn places(&self, neck: &Neck, pair: TriadPair) -> Vec<ViewPlace> {
        let there = notes_of_pair(neck, pair).filter(|(place, ..)| self.set.contains(place.string));
        let mut places: Vec<ViewPlace> = there.map(ViewPlace::plain).collect();
        number_by_pitch(&mut places);
        places
    }

    /// The shapes of both triads on a set of three strings, by height, within some frets and for
    /// this hand; other sets hold none.
    #[must_use]
    pub fn ladder(&self, neck: &Neck, pair: TriadPair, frets: FretRange, hand: Hand) -> Ladder {
        if self.set.three().is_none() {
            return Ladder::default();
        }
        let query = ShapeQuery::default().on(self.set).within(frets).for_hand(hand);
        Ladder::new(neck, pair, &query)
    }

    /// The steps along each string, from the highest string number down and from the nut up.
    #[must_use]
    pub fn steps(&self, neck: &Neck, pair: TriadPair) -> Vec<SetStep> {
        let along = |string| {
            let there = notes_of_pair(neck, pair).filter(move |(place, ..)| place.string == string);
            let there: Vec<_> = there.map(|(place, pitch, _)| (place, pitch)).collect();
            let step = |two: &[(Place, fretloom_theory::Pitch)]| match two {
                [(from, low), (to, high)] => {
                    let frets = u8::try_from(low.semitones_up_to(*high)).unwrap_or_default();
                    let shift_mm = neck.span_mm(neck.stopped_at(*from), to.fret);
                    Some(SetStep { from: *from, to: *to, frets, shift_mm })
                }
                _ => None,
            };
            there.windows(2).filter_map(step).collect::<Vec<_>>()
        };
        self.set.iter().flat_map(along).collect()
    }
}
