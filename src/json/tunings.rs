//! `tunings`

use fretloom_fretboard::{OpenString, StringNumber, Tuning as Strung};
use fretloom_theory::NamedPitch;
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use crate::answer::{TuningAnswer, TuningsAnswer};

/// A tuning with its capo, as every answer about a neck has it.
#[derive(Serialize)]
pub(super) struct Tuning<'a> {
    id: &'a str,
    name: &'a str,
    instrument: &'a str,
    /// As tuned, without the capo, from the highest string number to string 1.
    strings: Vec<Ascii<NamedPitch>>,
    /// Null where no string is one of several, else all notes of each, its principal first.
    courses: Option<Vec<Vec<Ascii<NamedPitch>>>>,
    /// Null where all strings begin at the nut.
    start_frets: Option<Vec<u8>>,
    /// 0 for none.
    capo: u8,
    /// Null where the capo holds all strings.
    capo_strings: Option<Vec<u8>>,
    frets: u8,
    scale_mm: f64,
    source: String,
    octaves_inferred: bool,
}

impl<'a> Tuning<'a> {
    pub(super) fn new(answer: &'a TuningAnswer) -> Tuning<'a> {
        let (tuning, capo) = (&answer.tuning, answer.tuning.capo());
        Tuning {
            id: tuning.id(),
            name: tuning.name(),
            instrument: tuning.instrument().word(),
            strings: tuning.strings().map(|(_, string)| Ascii(string.note())).collect(),
            courses: tuning.has_courses().then(|| courses(tuning)),
            start_frets: start_frets(tuning),
            capo: capo.fret().number(),
            capo_strings: capo.strings().map(|set| set.iter().map(StringNumber::number).collect()),
            frets: tuning.last_fret().number(),
            scale_mm: tuning.scale_mm(),
            source: answer.source.to_string(),
            octaves_inferred: tuning.octaves_inferred(),
        }
    }
}

fn courses(tuning: &Strung) -> Vec<Vec<Ascii<NamedPitch>>> {
    let course = |(number, open): (StringNumber, OpenString)| {
        let notes = std::iter::once(open.note()).chain(tuning.doublings(number).iter().copied());
        notes.map(Ascii).collect()
    };
    tuning.strings().map(course).collect()
}

fn start_frets(tuning: &Strung) -> Option<Vec<u8>> {
    let starts = tuning.strings().map(|(_, string)| string.starts_at().number());
    let starts: Vec<u8> = starts.collect();
    starts.iter().any(|start| *start > 0).then_some(starts)
}

#[derive(Serialize)]
struct Tunings<'a> {
    tunings: Vec<Tuning<'a>>,
}

impl AsJson for TuningsAnswer {
    fn as_json(&self) -> impl Serialize {
        Tunings { tunings: self.tunings.iter().map(Tuning::new).collect() }
    }
}
