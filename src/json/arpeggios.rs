//! `shapes --arpeggio`

use fretloom_fretboard::Finger;
use fretloom_theory::Inversion;
use fretloom_theory::SpelledTriad;
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use super::tunings::Tuning;
use crate::answer::{ArpeggiosAnswer, NamedArpeggio};

#[derive(Serialize)]
struct Arpeggios<'a> {
    tuning: Tuning<'a>,
    shapes: Vec<Arpeggio>,
}

/// An arpeggio, with the fields of a listed shape; its lists run from the lowest note up.
#[derive(Serialize)]
struct Arpeggio {
    triad: Ascii<SpelledTriad>,
    inversion: Ascii<Inversion>,
    by_name_only: bool,
    voicing: &'static str,
    strings: Vec<u8>,
    frets: Vec<u8>,
    pitches: Vec<u8>,
    /// Null where the notes of one string are beyond the hand.
    fingers: Option<Vec<u8>>,
    stretch_mm: f64,
    position: u8,
    /// Always null: no finger lies flat over notes that do not sound at once.
    barre: (),
}

impl Arpeggio {
    fn new(named: &NamedArpeggio) -> Arpeggio {
        let arpeggio = &named.arpeggio;
        let numbers = |fingers: Vec<Finger>| fingers.into_iter().map(Finger::number).collect();
        Arpeggio {
            triad: Ascii(named.triad),
            inversion: Ascii(arpeggio.inversion()),
            by_name_only: arpeggio.by_name_only(),
            voicing: "arpeggio",
            strings: arpeggio.notes().iter().map(|(place, _)| place.string.number()).collect(),
            frets: named.frets.iter().map(|fret| fret.number()).collect(),
            pitches: arpeggio.notes().iter().map(|(_, pitch)| pitch.midi()).collect(),
            fingers: arpeggio.fingers().map(numbers),
            stretch_mm: named.stretch_mm(),
            position: arpeggio.position().number(),
            barre: (),
        }
    }
}

impl AsJson for ArpeggiosAnswer {
    fn as_json(&self) -> impl Serialize {
        Arpeggios {
            tuning: Tuning::new(&self.tuning),
            shapes: self.arpeggios.iter().map(Arpeggio::new).collect(),
        }
    }
}
