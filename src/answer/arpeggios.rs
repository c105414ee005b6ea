//! The arpeggios of a triad.

use fretloom_fretboard::{Arpeggio, ArpeggioQuery, Ease, Finger, Inversion, Neck, StringSet};
use fretloom_theory::SpelledTriad;
use serde::Serialize;

use super::shapes::BarreAnswer;
use super::{Refusal, TuningAnswer, ascii};

/// One arpeggio. Lists run in the order of playing, from the lowest note up.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ArpeggioAnswer {
    /// The triad.
    #[serde(serialize_with = "ascii::one")]
    pub triad: SpelledTriad,
    /// Which member sounds first and lowest.
    #[serde(serialize_with = "ascii::one")]
    pub inversion: Inversion,
    /// An augmented triad's inversion is a matter of names.
    pub by_name_only: bool,
    voicing: &'static str,
    /// String numbers, one for each note.
    pub strings: Vec<u8>,
    /// Frets, 0 for open.
    pub frets: Vec<u8>,
    /// Sounding pitches as MIDI numbers.
    pub pitches: Vec<u8>,
    /// Fingers, 0 for open; none where the notes of one string are beyond the hand.
    pub fingers: Option<Vec<u8>>,
    /// The widest stretch on one string, in millimetres.
    pub stretch_mm: f64,
    /// Where the hand stands first.
    pub position: u8,
    /// No finger lies flat over notes that do not sound at once; here to be alike to other shapes.
    barre: Option<BarreAnswer>,
    /// Where the hand stands one after another; empty without fingers.
    #[serde(skip)]
    pub positions: Vec<String>,
    /// How hard it is for the hand.
    #[serde(skip)]
    pub ease: Ease,
}

impl ArpeggioAnswer {
    /// The arpeggio of a triad under its name.
    #[must_use]
    pub fn new(neck: &Neck, triad: SpelledTriad, arpeggio: &Arpeggio) -> ArpeggioAnswer {
        let notes = || arpeggio.notes().iter();
        let numbers = |fingers: Vec<Finger>| fingers.iter().map(|it| it.number()).collect();
        ArpeggioAnswer {
            triad,
            inversion: arpeggio.inversion(),
            by_name_only: arpeggio.by_name_only(),
            voicing: "arpeggio",
            strings: notes().map(|(place, _)| place.string.number()).collect(),
            frets: notes().map(|(place, _)| neck.fret_number(*place).number()).collect(),
            pitches: notes().map(|(_, pitch)| pitch.midi()).collect(),
            fingers: arpeggio.fingers().map(numbers),
            stretch_mm: (arpeggio.stretch_mm() * 10.0).round() / 10.0,
            position: arpeggio.position().number(),
            barre: None,
            positions: arpeggio.positions().iter().map(ToString::to_string).collect(),
            ease: arpeggio.ease(),
        }
    }
}

/// The answer of `shapes TRIAD --arpeggio 2`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ArpeggiosAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The arpeggios.
    pub shapes: Vec<ArpeggioAnswer>,
}

impl ArpeggiosAnswer {
    /// How does this triad go up the neck, two or three notes a string?
    ///
    /// # Errors
    ///
    /// Where `strings` are not on the neck, or not side by side.
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        triad: SpelledTriad,
        strings: Option<StringSet>,
        query: &ArpeggioQuery,
    ) -> Result<ArpeggiosAnswer, Refusal> {
        let mut query = *query;
        if let Some(strings) = strings {
            Refusal::unless_on(neck, strings)?;
            Refusal::unless_side_by_side(strings)?;
            query = query.on(strings);
        }
        let found = query.arpeggios(neck, triad.triad());
        let shapes = found.iter().map(|found| ArpeggioAnswer::new(neck, triad, found)).collect();
        Ok(ArpeggiosAnswer { tuning, shapes })
    }
}
