//! `finger`

use fretloom_fretboard::Fingering;
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use super::at_place::AtPlace;
use super::tunings::Tuning;
use crate::answer::{FingerAnswer, FingeredAnswer, NoteTime, WayAnswer};
use crate::glyphs::to_ascii;

#[derive(Serialize)]
struct Finger<'a> {
    tuning: Tuning<'a>,
    ways: Vec<Way<'a>>,
    remarks: Vec<String>,
}

#[derive(Serialize)]
struct Way<'a> {
    cost: f64,
    why: Ascii<&'a Fingering>,
    notes: Vec<Note>,
}

impl<'a> Way<'a> {
    fn new(way: &'a WayAnswer, times: &[NoteTime]) -> Way<'a> {
        Way {
            cost: way.cost(),
            why: Ascii(&way.fingering),
            notes: way.notes.iter().zip(times).map(Note::new).collect(),
        }
    }
}

#[derive(Serialize)]
struct Note {
    midi: u8,
    #[serde(flatten)]
    at: AtPlace,
    onset_s: f64,
    duration_s: f64,
    bar: u64,
}

impl Note {
    fn new((fingered, time): (&FingeredAnswer, &NoteTime)) -> Note {
        Note {
            midi: fingered.pitch.midi(),
            at: AtPlace::new(fingered),
            onset_s: time.played.onset_s(),
            duration_s: time.played.duration_s(),
            bar: time.bar,
        }
    }
}

impl AsJson for FingerAnswer {
    fn as_json(&self) -> impl Serialize {
        let of_file = self.file_remarks.iter().map(|remark| to_ascii(remark));
        let of_ways = self.remarks.iter().map(|remark| format!("{remark:#}"));
        Finger {
            tuning: Tuning::new(&self.tuning),
            ways: self.ways.iter().map(|way| Way::new(way, &self.times)).collect(),
            remarks: of_file.chain(of_ways).collect(),
        }
    }
}
