//! The arpeggios of a triad.

use fretloom_fretboard::{Arpeggio, ArpeggioQuery, Fret, Neck, Place, StringSet};
use fretloom_theory::SpelledTriad;

use super::refusal::Refusal;
use super::shapes::to_a_tenth;
use super::tunings::TuningAnswer;

/// An arpeggio under the name of its triad.
#[derive(Clone, PartialEq, Debug)]
pub struct NamedArpeggio {
    /// The triad.
    pub triad: SpelledTriad,
    /// Its arpeggio.
    pub arpeggio: Arpeggio,
    /// Its frets as they are written, from the lowest note up: an open string is 0, or the fret of
    /// the capo where that holds it.
    pub frets: Vec<Fret>,
}

impl NamedArpeggio {
    /// The arpeggio of a triad on a neck under its name.
    #[must_use]
    pub fn new(neck: &Neck, triad: SpelledTriad, arpeggio: Arpeggio) -> NamedArpeggio {
        let frets = arpeggio.notes().iter().map(|(place, _)| neck.fret_number(*place)).collect();
        NamedArpeggio { triad, arpeggio, frets }
    }

    /// Where its notes are, from the lowest up.
    #[must_use]
    pub fn places(&self) -> Vec<Place> {
        self.arpeggio.notes().iter().map(|(place, _)| *place).collect()
    }

    /// The widest stretch on one string, as it is told: to a tenth of a millimetre.
    #[must_use]
    pub fn stretch_mm(&self) -> f64 {
        to_a_tenth(self.arpeggio.stretch_mm())
    }
}

/// The answer of `shapes TRIAD --arpeggio 2`.
#[derive(Clone, PartialEq, Debug)]
pub struct ArpeggiosAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The triad.
    pub triad: SpelledTriad,
    /// Its arpeggios.
    pub arpeggios: Vec<NamedArpeggio>,
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
        let found = query.arpeggios(neck, triad.triad()).into_iter();
        let arpeggios = found.map(|found| NamedArpeggio::new(neck, triad, found)).collect();
        Ok(ArpeggiosAnswer { tuning, triad, arpeggios })
    }
}
