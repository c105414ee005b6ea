//! Where the notes of a pair lie on a neck.

use fretloom_fretboard::{Fret, FretRange, Neck, Place};
use fretloom_theory::WhichTriad;
use fretloom_theory::{Degree, NoteName, Pitch};

use super::pairs::{LeftOut, NamedPair, PairAnswer};
use super::tunings::TuningAnswer;
use super::views::{AskedView, InView, ViewAnswer};

/// The answer of `neck CHORD`.
#[derive(Clone, PartialEq, Debug)]
pub struct NeckAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The pair.
    pub pair: NamedPair,
    /// Every place that sounds one of its notes, string 1 first, up the neck; of a view those that
    /// it shows.
    pub places: Vec<PairPlace>,
    /// Which view; `None` for the whole neck.
    pub view: Option<ViewAnswer>,
}

impl NeckAnswer {
    /// Where on this neck are the notes of this pair?
    #[must_use]
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        pair: &PairAnswer,
        frets: FretRange,
    ) -> NeckAnswer {
        let mut places = places_of_pair(neck, pair);
        places.retain(|place| frets.contains(place.fret));
        NeckAnswer { tuning, pair: pair.name(), places, view: None }
    }

    /// Which of them does this view show?
    #[must_use]
    pub fn in_view(
        neck: &Neck,
        tuning: TuningAnswer,
        pair: &PairAnswer,
        view: &AskedView,
    ) -> NeckAnswer {
        let contents = view.contents(neck);
        let mut answer = NeckAnswer::new(neck, tuning, pair, view.frets());
        let all = places_of_pair(neck, pair).len();
        answer.places.retain_mut(|place| {
            let there = contents.places().iter().find(|there| there.place == place.place);
            place.in_view = there.map(InView::new);
            place.in_view.is_some()
        });
        let others = all - answer.places.len();
        answer.view = Some(ViewAnswer::new(*view.view(), answer.pair, contents.hides(), others));
        answer
    }
}

/// One place that sounds a note of a pair.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PairPlace {
    /// String and fret.
    pub place: Place,
    /// The fret as it is written: an open string is 0, or the fret of the capo where that holds it.
    pub fret: Fret,
    /// What sounds there.
    pub pitch: Pitch,
    /// The note as its triad is spelled.
    pub note: NoteName,
    /// Which triad of the pair it belongs to.
    pub which: WhichTriad,
    /// What it is over the chord.
    pub degree: Degree,
    /// What it is over the root of its triad.
    pub member: Degree,
    /// How a view shows it; `None` where there is no view.
    pub in_view: Option<InView>,
}

/// One place that sounds a note which the pair leaves out.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LeftOutPlace {
    /// String and fret.
    pub place: Place,
    /// The note and its degree.
    pub left_out: LeftOut,
}

/// Every place on the neck that sounds a note of the pair: string 1 first, up the neck.
#[must_use]
pub fn places_of_pair(neck: &Neck, pair: &PairAnswer) -> Vec<PairPlace> {
    let places = neck.places().filter_map(|at| place_of_pair(neck, pair, at));
    let mut places: Vec<PairPlace> = places.collect();
    places.sort_by_key(|place| (place.place.string, place.place.fret));
    places
}

/// A place of the neck, where it sounds a note of the pair.
fn place_of_pair(
    neck: &Neck,
    pair: &PairAnswer,
    (place, pitch): (Place, Pitch),
) -> Option<PairPlace> {
    let sides = [(WhichTriad::First, &pair.first), (WhichTriad::Second, &pair.second)];
    sides.into_iter().find_map(|(which, triad)| {
        let (index, note) = triad.name.member(pitch.pitch_class())?;
        Some(PairPlace {
            place,
            fret: neck.fret_number(place),
            pitch,
            note,
            which,
            degree: *triad.degrees.get(index)?,
            member: *triad.name.quality().degrees().get(index)?,
            in_view: None,
        })
    })
}

/// Every place on the neck that sounds a note which the pair leaves out.
#[must_use]
pub fn places_left_out(neck: &Neck, pair: &PairAnswer) -> Vec<LeftOutPlace> {
    let at = |(place, pitch): (Place, Pitch)| {
        let is_it = |out: &&LeftOut| out.note.pitch_class() == pitch.pitch_class();
        let left_out = *pair.left_out.iter().find(is_it)?;
        Some(LeftOutPlace { place, left_out })
    };
    neck.places().filter_map(at).collect()
}
