//! `neck`

use fretloom_fretboard::Side;
use fretloom_theory::{Degree, NoteName};
use serde::Serialize;

use super::AsJson;
use super::ascii::{self, Ascii};
use super::tunings::Tuning;
use crate::answer::{HiddenAnswer, NeckAnswer, PlaceAnswer, SeenAnswer, ViewAnswer};

#[derive(Serialize)]
struct Neck<'a> {
    tuning: Tuning<'a>,
    pair: &'a str,
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
    seen: Option<Seen>,
}

impl Place {
    fn new(answer: &PlaceAnswer) -> Place {
        Place {
            string: answer.string,
            fret: answer.fret,
            midi: answer.midi,
            note: Ascii(answer.note),
            triad: match answer.side {
                Side::First => "first",
                Side::Second => "second",
            },
            degree: Ascii(answer.degree),
            seen: answer.seen.as_ref().map(Seen::new),
        }
    }
}

/// How a view shows a place.
#[derive(Serialize)]
struct Seen {
    finger: Option<u8>,
    stretched: bool,
    order: usize,
}

impl Seen {
    fn new(answer: &SeenAnswer) -> Seen {
        Seen { finger: answer.finger, stretched: answer.stretched, order: answer.order }
    }
}

#[derive(Serialize)]
struct View<'a> {
    view: &'static str,
    hides: Vec<Ascii<&'a HiddenAnswer>>,
}

impl<'a> View<'a> {
    fn new(answer: &'a ViewAnswer) -> View<'a> {
        View { view: answer.word, hides: ascii::list(&answer.hides) }
    }
}

impl AsJson for NeckAnswer {
    fn as_json(&self) -> impl Serialize {
        Neck {
            tuning: Tuning::new(&self.tuning),
            pair: &self.pair,
            places: self.places.iter().map(Place::new).collect(),
            view: self.view.as_ref().map(View::new),
        }
    }
}
