//! Where the notes of a pair lie on a neck.

use fretloom_fretboard::{FretRange, Neck, Place, Side};
use fretloom_theory::{Degree, NoteName};

use super::views::{AskedView, SeenAnswer, ViewAnswer};
use super::{LeftOut, PairAnswer, TuningAnswer};

/// The answer of `neck CHORD`.
#[derive(Clone, PartialEq, Debug)]
pub struct NeckAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The pair's name.
    pub pair: String,
    /// Every place that sounds one of its notes, string 1 first, up the neck; of a view those that
    /// it shows.
    pub places: Vec<PlaceAnswer>,
    /// Which view; the whole neck has none, and then the JSON says nothing of views.
    pub view: Option<ViewAnswer>,
}

impl NeckAnswer {
    /// Where on this neck are the notes of this pair?
    #[must_use]
    pub fn new(neck: &Neck, tuning: TuningAnswer, pair: &PairAnswer, frets: FretRange) -> Self {
        let places = places_of_pair(neck, pair);
        NeckAnswer {
            tuning,
            pair: format!("{:#}", pair.name()),
            places: places
                .into_iter()
                .filter(|place| frets.contains(neck.fret_number(place.place)))
                .collect(),
            view: None,
        }
    }

    /// Which of them does this view show?
    #[must_use]
    pub fn seen(
        neck: &Neck,
        tuning: TuningAnswer,
        pair: &PairAnswer,
        view: &AskedView,
    ) -> NeckAnswer {
        let seen = view.seen(neck);
        let mut answer = NeckAnswer::new(neck, tuning, pair, view.frets());
        let all = places_of_pair(neck, pair).len();
        answer.places.retain_mut(|place| {
            let there = seen.places().iter().find(|there| there.place == place.place);
            place.seen = there.map(SeenAnswer::new);
            place.seen.is_some()
        });
        let others = all - answer.places.len();
        answer.view = Some(ViewAnswer::new(view.view(), pair, seen.hides(), others));
        answer
    }
}

/// One place that sounds a note of a pair.
#[derive(Clone, PartialEq, Debug)]
pub struct PlaceAnswer {
    /// String and fret.
    pub place: Place,
    /// The number of the string.
    pub string: u8,
    /// The fret as it is written: 0 for an open string, and the capo's fret where it holds that.
    pub fret: u8,
    /// The sounding pitch.
    pub midi: u8,
    /// The note as its triad is spelled.
    pub note: NoteName,
    /// Which triad of the pair it belongs to.
    pub side: Side,
    /// What it is over the chord.
    pub degree: Degree,
    /// What it is over the root of its triad.
    pub member: Degree,
    /// How a view shows it; none where there is no view.
    pub seen: Option<SeenAnswer>,
}

/// One place that sounds a note which the pair leaves out.
#[derive(Clone, PartialEq, Debug)]
pub struct LeftOutPlace {
    /// String and fret.
    pub place: Place,
    /// The note and its degree.
    pub left_out: LeftOut,
}

/// Every place on the neck that sounds a note of the pair: string 1 first, up the neck.
#[must_use]
pub fn places_of_pair(neck: &Neck, pair: &PairAnswer) -> Vec<PlaceAnswer> {
    let mut places: Vec<PlaceAnswer> = neck
        .places()
        .filter_map(|(place, pitch)| {
            let class = pitch.pitch_class();
            let sides = [(Side::First, &pair.first), (Side::Second, &pair.second)];
            sides.into_iter().find_map(|(side, triad)| {
                let (index, note) = triad.name.member(class)?;
                let degree = *triad.degrees.get(index)?;
                let member = *triad.name.quality().degrees().get(index)?;
                let (string, fret) = (place.string.number(), neck.fret_number(place).number());
                let (midi, seen) = (pitch.midi(), None);
                Some(PlaceAnswer { place, string, fret, midi, note, side, degree, member, seen })
            })
        })
        .collect();
    places.sort_by_key(|place| (place.place.string.number(), place.place.fret.number()));
    places
}

/// Every place on the neck that sounds a note which the pair leaves out.
#[must_use]
pub fn places_left_out(neck: &Neck, pair: &PairAnswer) -> Vec<LeftOutPlace> {
    let at = |(place, pitch): (Place, fretloom_theory::Pitch)| {
        let is_it = |out: &&LeftOut| out.note.pitch_class() == pitch.pitch_class();
        let left_out = *pair.left_out.iter().find(is_it)?;
        Some(LeftOutPlace { place, left_out })
    };
    neck.places().filter_map(at).collect()
}
