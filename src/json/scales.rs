//! `scales`

use fretloom_theory::Reading;
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use super::chord::Chord;
use super::scale::Scale;
use crate::answer::ScalesAnswer;

#[derive(Serialize)]
struct Scales<'a> {
    chord: Chord<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reading: Option<Ascii<&'a Reading>>,
    scales: Vec<Scale<'a>>,
}

impl AsJson for ScalesAnswer {
    fn as_json(&self) -> impl Serialize {
        Scales {
            chord: Chord::new(&self.chord),
            reading: self.reading.as_ref().map(Ascii),
            scales: self.scales.iter().zip(1..).map(Scale::ranked).collect(),
        }
    }
}
