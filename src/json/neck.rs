//! `neck`

use fretloom_fretboard::Finger;
use fretloom_theory::WhichTriad;
use fretloom_theory::{Degree, NoteName};
use serde::Serialize;

use super::AsJson;
use super::ascii::{self, Ascii};
use super::tunings::Tuning;
use crate::answer::{InView, NamedHidden, NamedPair, NeckAnswer, PairPlace, ViewAnswer};

#[derive(Serialize)]
struct Neck<'a> {
    tuning: Tuning<'a>,
    pair: Ascii<NamedPair>,
    places: Vec<Place>,
    /// Absent where the whole neck is shown.
    #[serde(flatten)]
    view: Option<View<'a>>,
}

#[derive(Serialize)]
struct Place {
    string: u8,
    fret: u8,
    midi: u8,
    note: Ascii<NoteName>,
    triad: &'static str,
    degree: Ascii<Degree>,
    /// Absent where the whole neck is shown.
    #[serde(flatten)]
    seen: Option<PlaceInView>,
}

impl Place {
    fn new(answer: &PairPlace) -> Place {
        Place {
            string: answer.place.string.number(),
            fret: answer.fret.number(),
            midi: answer.pitch.midi(),
            note: Ascii(answer.note),
            triad: match answer.which {
                WhichTriad::First => "first",
                WhichTriad::Second => "second",
            },
            degree: Ascii(answer.degree),
            seen: answer.in_view.map(PlaceInView::new),
        }
    }
}

/// How a view shows a place.
#[derive(Serialize)]
struct PlaceInView {
    finger: Option<u8>,
    stretched: bool,
    order: usize,
}

impl PlaceInView {
    fn new(InView { finger, stretched, order, .. }: InView) -> PlaceInView {
        PlaceInView { finger: finger.map(Finger::number), stretched, order }
    }
}

#[derive(Serialize)]
struct View<'a> {
    view: &'static str,
    hides: Vec<Ascii<&'a NamedHidden>>,
}

impl<'a> View<'a> {
    fn new(answer: &'a ViewAnswer) -> View<'a> {
        View { view: answer.view.word(), hides: ascii::list(&answer.hides) }
    }
}

impl AsJson for NeckAnswer {
    fn as_json(&self) -> impl Serialize {
        Neck {
            tuning: Tuning::new(&self.tuning),
            pair: Ascii(self.pair),
            places: self.places.iter().map(Place::new).collect(),
            view: self.view.as_ref().map(View::new),
        }
    }
}
