//! The scales of a chord.

use std::fmt;

use fretloom_theory::{
    Chord, ChordScale, Degree, Key, NoteName, ReadChord, Reading, Scale, ScaleChoice, ScaleKind,
};

use super::chord::TypedChord;
use super::refusal::Refusal;

/// A scale over a chord, with the reason why it was chosen; or a scale by itself.
#[derive(Clone, PartialEq, Debug)]
pub struct ChosenScale {
    chord_scale: ChordScale,
    why: Option<ScaleReason>,
}

impl ChosenScale {
    pub(super) fn new(chord_scale: ChordScale, why: ScaleReason) -> ChosenScale {
        ChosenScale { chord_scale, why: Some(why) }
    }

    pub(super) fn alone(scale: Scale) -> ChosenScale {
        ChosenScale { chord_scale: ChordScale::alone(scale), why: None }
    }

    /// The scale.
    #[must_use]
    pub fn scale(&self) -> &Scale {
        self.chord_scale.scale()
    }

    /// The scale as it is heard over the chord.
    #[must_use]
    pub fn chord_scale(&self) -> &ChordScale {
        &self.chord_scale
    }

    /// Why it was chosen; `None` where no chord asks for it.
    #[must_use]
    pub fn why(&self) -> Option<&ScaleReason> {
        self.why.as_ref()
    }

    /// Its notes, root first.
    pub fn notes(&self) -> impl Iterator<Item = NoteName> {
        self.scale().notes()
    }

    /// What each of its notes is over the chord; over its own root where there is no chord.
    pub fn degrees(&self) -> impl Iterator<Item = Degree> {
        self.notes().map(|note| self.chord_scale.degree(note.pitch_class()))
    }

    /// Chord tones that the scale does not hold. Of a scale that fits, that is the plain fifth.
    pub fn misses(&self) -> impl Iterator<Item = Degree> {
        let chord = self.chord_scale.chord().map(Chord::set).unwrap_or_default();
        self.chord_scale.degrees(chord.difference(self.scale().set()))
    }
}

/// Why a scale was chosen for a chord; prints with signs (`{}`) or in ASCII (`{:#}`).
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ScaleReason {
    /// It is one of those that fit the chord.
    Fits(ScaleChoice),
    /// The player wants it, whether it fits or not.
    ByHand,
}

impl fmt::Display for ScaleReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ScaleReason::Fits(choice) => choice.why().fmt(f),
            ScaleReason::ByHand => f.write_str("chosen by hand"),
        }
    }
}

/// The answer of `scales CHORD`.
#[derive(Clone, PartialEq, Debug)]
pub struct ScalesAnswer {
    /// The chord.
    pub chord: TypedChord,
    /// What it does among its neighbours, where some were given.
    pub reading: Option<Reading>,
    /// The scales that fit it, the usual ones first.
    pub scales: Vec<ChosenScale>,
}

/// The chords around a chord, and the key of the tune where it is known.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Neighbours {
    before: Vec<Chord>,
    after: Vec<Chord>,
    key: Option<Key>,
}

impl Neighbours {
    /// Reads chords separated by spaces or bar lines, and a key as in `Bb` or `D minor`.
    ///
    /// # Errors
    ///
    /// Where a chord or the key cannot be read.
    pub fn read(before: &str, after: &str, key: Option<&str>) -> Result<Neighbours, Refusal> {
        let chords = |text: &str| -> Result<Vec<Chord>, Refusal> {
            let words = text.split([' ', '|']).filter(|word| !word.is_empty());
            words.map(|word| Ok(word.parse()?)).collect()
        };
        let key = key.map(|key| key.parse().map_err(Refusal::Read)).transpose()?;
        Ok(Neighbours { before: chords(before)?, after: chords(after)?, key })
    }

    /// Is nothing known around the chord?
    #[must_use]
    pub fn are_none(&self) -> bool {
        self.before.is_empty() && self.after.is_empty() && self.key.is_none()
    }
}

/// Which scales fit this chord, in which order, and why?
///
/// # Errors
///
/// Where the symbol cannot be read.
pub fn scales_of(symbol: &str, own: &[ScaleKind]) -> Result<ScalesAnswer, Refusal> {
    let read: ReadChord = symbol.parse()?;
    let choices = ScaleChoice::for_chord_with(&read.chord, own);
    Ok(ordered(TypedChord::new(symbol, read), choices, None))
}

/// Which scales does this chord ask for among its neighbours?
///
/// # Errors
///
/// Where the symbol cannot be read.
pub fn scales_among(
    symbol: &str,
    around: &Neighbours,
    own: &[ScaleKind],
) -> Result<ScalesAnswer, Refusal> {
    let read: ReadChord = symbol.parse()?;
    let mut chords = around.before.clone();
    chords.push(read.chord.clone());
    chords.extend(around.after.iter().cloned());
    let reading = Reading::at(&chords, around.before.len(), around.key);
    let choices = match &reading {
        Some(reading) => reading.scales_with(own),
        None => ScaleChoice::for_chord_with(&read.chord, own),
    };
    Ok(ordered(TypedChord::new(symbol, read), choices, reading))
}

fn ordered(chord: TypedChord, choices: Vec<ScaleChoice>, reading: Option<Reading>) -> ScalesAnswer {
    let chosen = |choice: ScaleChoice| {
        let heard = ChordScale::over(chord.read.chord.clone(), choice.scale().clone());
        ChosenScale::new(heard, ScaleReason::Fits(choice))
    };
    let scales = choices.into_iter().map(chosen).collect();
    ScalesAnswer { chord, reading, scales }
}
