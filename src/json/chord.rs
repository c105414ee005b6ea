//! `chord`

use fretloom_theory::{Assumption, Chord as NamedChord, Degree, NoteName};
use serde::Serialize;

use super::AsJson;
use super::ascii::{self, Ascii};
use crate::answer::{ChordLine, ChordListAnswer, TypedChord};

/// A chord as it was typed and read.
#[derive(Serialize)]
pub(super) struct Chord<'a> {
    symbol: &'a str,
    name: Ascii<&'a NamedChord>,
    root: Ascii<NoteName>,
    bass: Option<Ascii<NoteName>>,
    tones: Vec<Ascii<NoteName>>,
    degrees: Vec<Ascii<&'a Degree>>,
    assumed: Vec<Ascii<&'a Assumption>>,
}

impl<'a> Chord<'a> {
    pub(super) fn new(typed: &'a TypedChord) -> Chord<'a> {
        let chord = &typed.read.chord;
        Chord {
            symbol: &typed.symbol,
            name: Ascii(chord),
            root: Ascii(chord.root()),
            bass: chord.bass().map(Ascii),
            tones: ascii::list(chord.tones()),
            degrees: ascii::list(chord.degrees()),
            assumed: ascii::list(&typed.read.assumed),
        }
    }
}

#[derive(Serialize)]
struct OneChord<'a> {
    chord: Chord<'a>,
}

impl AsJson for TypedChord {
    fn as_json(&self) -> impl Serialize {
        OneChord { chord: Chord::new(self) }
    }
}

#[derive(Serialize)]
struct ChordList<'a> {
    chords: Vec<Line<'a>>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Line<'a> {
    Read(Chord<'a>),
    Unread { symbol: &'a str, error: String, at: usize },
}

impl<'a> Line<'a> {
    fn new(line: &'a ChordLine) -> Line<'a> {
        match line {
            ChordLine::Read(chord) => Line::Read(Chord::new(chord)),
            ChordLine::Unread { symbol, error } => {
                Line::Unread { symbol, error: error.to_string(), at: error.at() }
            }
        }
    }
}

impl AsJson for ChordListAnswer {
    fn as_json(&self) -> impl Serialize {
        ChordList { chords: self.lines.iter().map(Line::new).collect() }
    }
}
