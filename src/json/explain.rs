//! `explain`

use fretloom_theory::{
    BarLabel, ChordSymbol, ExplainedBar, ExplainedGroup, Inversion, Landing, Movement, Scale,
    SpelledTriad, Spelling,
};
use serde::Serialize;

use super::AsJson;
use super::ascii::{self, Ascii};
use crate::answer::{BarNames, ExplainAnswer, NamedPair};
use crate::glyphs::to_ascii;

#[derive(Serialize)]
struct Explained<'a> {
    bars: Vec<Bar<'a>>,
    remarks: Vec<String>,
}

#[derive(Serialize)]
struct Bar<'a> {
    bar: Label<'a>,
    onset: f64,
    end: f64,
    /// Null where none is written, or it is `N.C.`.
    chord: Option<Ascii<&'a ChordSymbol>>,
    scale: Option<Ascii<&'a Scale>>,
    pair: Option<Ascii<NamedPair>>,
    groups: Vec<Group<'a>>,
    free: &'a [usize],
    landing: Option<Ascii<&'a Landing>>,
    readings: Vec<Ascii<NamedPair>>,
    /// What the line does where no pair explains it.
    movement: Option<&'static str>,
    why: String,
}

/// A number, or what the score calls the bar.
#[derive(Serialize)]
#[serde(untagged)]
enum Label<'a> {
    Number(u64),
    Text(&'a str),
}

#[derive(Serialize)]
struct Group<'a> {
    triad: Ascii<SpelledTriad>,
    /// Null where the group does not hold the whole triad.
    inversion: Option<Ascii<Inversion>>,
    notes: &'a [usize],
    early: f64,
}

impl<'a> Bar<'a> {
    fn new(bar: &'a ExplainedBar, spelling: Spelling) -> Bar<'a> {
        let names = BarNames::of(bar, spelling);
        Bar {
            bar: match &bar.label {
                BarLabel::Number(number) => Label::Number(*number),
                BarLabel::Text(text) => Label::Text(text),
            },
            onset: bar.from.to_f64(),
            end: bar.to.to_f64(),
            chord: bar.chord.as_ref().filter(|symbol| **symbol != ChordSymbol::NoChord).map(Ascii),
            scale: bar.scale.as_ref().map(Ascii),
            pair: bar.pair.map(|pair| Ascii(names.pair(pair))),
            groups: bar.groups.iter().map(|group| Group::new(group, &names)).collect(),
            free: &bar.free,
            landing: bar.landing.as_ref().map(Ascii),
            readings: ascii::list(bar.readings.iter().map(|pair| names.pair(*pair))),
            movement: bar.movement.map(word),
            why: format!("{:#}", bar.why(spelling)),
        }
    }
}

impl<'a> Group<'a> {
    fn new(group: &'a ExplainedGroup, names: &BarNames) -> Group<'a> {
        Group {
            triad: Ascii(names.triad(group.triad)),
            inversion: group.inversion.map(Ascii),
            notes: &group.notes,
            early: group.early.quarters_early(),
        }
    }
}

const fn word(movement: Movement) -> &'static str {
    match movement {
        Movement::Rests => "rests",
        Movement::OneNote => "one note",
        Movement::Chromatic => "chromatic line",
        Movement::Scale => "scale run",
        Movement::Thirds => "thirds",
        Movement::OneTriad(_) => "one triad",
        Movement::Arpeggio => "arpeggio",
        Movement::Pentatonic => "pentatonic",
        Movement::Mixed => "mixed",
    }
}

impl AsJson for ExplainAnswer {
    fn as_json(&self) -> impl Serialize {
        let bars = self.explanation.bars.iter();
        Explained {
            bars: bars.map(|bar| Bar::new(bar, self.spelling)).collect(),
            remarks: self.remarks.iter().map(|remark| to_ascii(remark)).collect(),
        }
    }
}
