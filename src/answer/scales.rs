//! The scales of a chord, and the triads of a scale.

use fretloom_theory::{
    Chord, ChordScale, Degree, Key, NoteName, ReadChord, Reading, Scale, ScaleChoice, ScaleKind,
    Speller, Spelling, TriadQuality, as_players_say,
};
use serde::Serialize;

use super::{ChordAnswer, FORMAT, Moment, Refusal, ascii};

/// A scale, over a chord or by itself.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ScaleAnswer {
    /// Its place among the scales of the chord, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rank: Option<usize>,
    /// Root and kind.
    #[serde(rename = "name", serialize_with = "ascii::one")]
    pub scale: Scale,
    /// Its root.
    #[serde(serialize_with = "ascii::one")]
    pub root: NoteName,
    /// Its kind; empty for a typed scale without a name.
    pub kind: String,
    /// The scale it is a mode of, as in `D major`.
    #[serde(serialize_with = "ascii::maybe")]
    pub parent: Option<fretloom_theory::ParentScale>,
    /// Which mode of it.
    pub mode: Option<u8>,
    /// Its notes, root first.
    #[serde(serialize_with = "ascii::list")]
    pub notes: Vec<NoteName>,
    /// What each of them is over the chord; over its own root where there is no chord.
    #[serde(serialize_with = "ascii::list")]
    pub degrees: Vec<Degree>,
    /// Where its parent lies, as players say it: `melodic minor a half step up`.
    pub said: Option<String>,
    /// Chord tones that the scale does not hold: the soft fifth.
    #[serde(serialize_with = "ascii::list")]
    pub misses: Vec<Degree>,
    /// Why it stands where it does.
    #[serde(serialize_with = "plain_text")]
    pub why: String,
    /// The root that was asked for, where the spelling needed another.
    #[serde(serialize_with = "ascii::maybe", skip_serializing_if = "Option::is_none")]
    pub respelled_from: Option<NoteName>,
}

fn plain_text<S: serde::Serializer>(text: &str, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&crate::glyphs::to_ascii(text))
}

impl ScaleAnswer {
    /// The scale of a moment.
    #[must_use]
    pub fn of(moment: &Moment) -> ScaleAnswer {
        ScaleAnswer::new(moment.ground(), moment.why().to_owned(), None)
    }

    fn new(ground: &ChordScale, why: String, rank: Option<usize>) -> ScaleAnswer {
        let scale = ground.scale();
        let notes: Vec<NoteName> = scale.notes().collect();
        let parent = scale.parent();
        ScaleAnswer {
            rank,
            root: scale.root(),
            kind: scale.kind().name().to_owned(),
            mode: parent.map(|parent| parent.mode),
            said: as_players_say(scale),
            misses: missing(ground),
            parent,
            degrees: notes.iter().map(|note| ground.degree(note.pitch_class())).collect(),
            notes,
            why,
            respelled_from: scale.respelled_from(),
            scale: scale.clone(),
        }
    }
}

/// The chord tones that are not in the scale.
fn missing(ground: &ChordScale) -> Vec<Degree> {
    let chord = ground.chord().map(Chord::set).unwrap_or_default();
    ground.degrees(chord.difference(ground.scale().set())).collect()
}

/// The answer of `scales CHORD`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ScalesAnswer {
    format: u32,
    /// The chord.
    pub chord: ChordAnswer,
    /// What it does among its neighbours, where some were given.
    #[serde(serialize_with = "ascii::maybe", skip_serializing_if = "Option::is_none")]
    pub reading: Option<Reading>,
    /// The scales that fit it, the usual ones first.
    pub scales: Vec<ScaleAnswer>,
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
    Ok(ordered(symbol, &read, &choices, None))
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
    Ok(ordered(symbol, &read, &choices, reading))
}

fn ordered(
    symbol: &str,
    read: &ReadChord,
    choices: &[ScaleChoice],
    reading: Option<Reading>,
) -> ScalesAnswer {
    let answer = |(index, choice): (usize, &ScaleChoice)| {
        let ground = ChordScale::over(read.chord.clone(), choice.scale().clone());
        ScaleAnswer::new(&ground, choice.why().to_string(), Some(index + 1))
    };
    ScalesAnswer {
        format: FORMAT,
        chord: ChordAnswer::new(symbol, read),
        reading,
        scales: choices.iter().enumerate().map(answer).collect(),
    }
}

/// The answer of `triads SCALE`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TriadsAnswer {
    format: u32,
    /// The scale.
    pub scale: ScaleAnswer,
    /// Its triads, going up.
    pub triads: Vec<ScaleTriad>,
}

/// A triad on a degree of a scale.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ScaleTriad {
    /// The degree that its root is.
    #[serde(serialize_with = "ascii::one")]
    pub degree: Degree,
    /// Its name for people.
    #[serde(skip)]
    pub name: fretloom_theory::SpelledTriad,
    /// Its root.
    #[serde(serialize_with = "ascii::one")]
    pub root: NoteName,
    /// Its quality.
    pub quality: &'static str,
    /// Its notes.
    #[serde(serialize_with = "ascii::list")]
    pub notes: [NoteName; 3],
    /// Does the scale spell it in thirds? Otherwise it is there by sound only.
    pub in_thirds: bool,
}

/// Which triads does this scale hold, degree by degree? A scale of seven notes answers with those
/// that it spells in thirds, one a degree; any other scale with every triad that sounds in it.
///
/// # Errors
///
/// Where the scale cannot be read.
pub fn triads_of(
    scale: &str,
    spelling: Spelling,
    own: &[ScaleKind],
) -> Result<TriadsAnswer, Refusal> {
    let moment = Moment::of_scale_with(scale, own)?;
    let speller = Speller::new(moment.ground().clone(), spelling);
    let scale = moment.ground().scale();
    let seven = scale.kind().has_a_letter_for_each_degree();
    let triads = scale.triads(TriadQuality::TERTIAN).into_iter();
    let answer = |triad: fretloom_theory::Triad| {
        let name = speller.triad(triad);
        ScaleTriad {
            degree: moment.ground().degree(triad.root()),
            name,
            root: name.root(),
            quality: triad.quality().word(),
            notes: name.notes(),
            in_thirds: scale.spells(triad),
        }
    };
    let triads = triads.map(answer).filter(|triad| triad.in_thirds || !seven).collect();
    Ok(TriadsAnswer { format: FORMAT, scale: ScaleAnswer::of(&moment), triads })
}
