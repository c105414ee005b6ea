//! `changes --comping`: the chart with its plan, and the stabs.

use fretloom_theory::{BarLabel, WhichTriad};
use serde::Serialize;

use super::AsJson;
use super::shapes::Shape;
use super::tunings::Tuning;
use crate::answer::{CompedChanges, CompedStab, CompingAnswer};

#[derive(Serialize)]
struct Comped<'a, C> {
    #[serde(flatten)]
    changes: C,
    comping: Comping<'a>,
}

#[derive(Serialize)]
struct Comping<'a> {
    tuning: Tuning<'a>,
    tempo: f64,
    /// The first and the last of the frets between which all of it lies.
    area: [u8; 2],
    stabs: Vec<Stab>,
}

/// Three notes that are struck at once.
#[derive(Serialize)]
struct Stab {
    /// In quarter notes from the beginning.
    onset: f64,
    duration: f64,
    bar: u64,
    /// `first` or `second` of the pair of its chord.
    which: &'static str,
    #[serde(flatten)]
    shape: Shape,
    /// The highest of its notes.
    top: u8,
    /// The longest way of a voice along its string from the stab before; null where none comes before.
    moved_mm: Option<f64>,
}

impl<'a> Comping<'a> {
    fn new(answer: &'a CompingAnswer) -> Comping<'a> {
        Comping {
            tuning: Tuning::new(&answer.tuning),
            tempo: answer.question.tempo.a_minute(),
            area: [answer.area.first().number(), answer.area.last().number()],
            stabs: answer.stabs.iter().map(Stab::new).collect(),
        }
    }
}

impl Stab {
    fn new(stab: &CompedStab) -> Stab {
        Stab {
            onset: stab.onset.to_f64(),
            duration: stab.duration.to_f64(),
            bar: match stab.bar {
                BarLabel::Number(number) => number,
                BarLabel::Text(_) => 0,
            },
            which: match stab.which {
                WhichTriad::First => "first",
                WhichTriad::Second => "second",
            },
            shape: Shape::new(&stab.shape),
            top: stab.top().midi(),
            moved_mm: stab.moved_mm(),
        }
    }
}

impl AsJson for CompedChanges {
    fn as_json(&self) -> impl Serialize {
        Comped { changes: self.changes.as_json(), comping: Comping::new(&self.comping) }
    }
}
