//! `ladder`

use fretloom_fretboard::{StringNumber, StringSet};
use serde::Serialize;

use super::AsJson;
use super::shapes::Shape;
use super::tunings::Tuning;
use crate::answer::{ClimbedStrings, LadderAnswer};

#[derive(Serialize)]
struct Ladder<'a> {
    tuning: Tuning<'a>,
    /// Of a ladder across sets the one where it begins.
    strings: Vec<u8>,
    rungs: Vec<Shape>,
    /// Of a ladder across sets alone: all of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    sets: Option<Vec<Vec<u8>>>,
}

impl AsJson for LadderAnswer {
    fn as_json(&self) -> impl Serialize {
        let (first, sets) = match &self.strings {
            ClimbedStrings::One(set) => (Some(*set), None),
            ClimbedStrings::Across(sets) => (sets.first().copied(), Some(sets)),
        };
        Ladder {
            tuning: Tuning::new(&self.tuning),
            strings: first.map(numbers).unwrap_or_default(),
            rungs: self.rungs.iter().map(Shape::new).collect(),
            sets: sets.map(|sets| sets.iter().copied().map(numbers).collect()),
        }
    }
}

fn numbers(set: StringSet) -> Vec<u8> {
    set.iter().map(StringNumber::number).collect()
}
