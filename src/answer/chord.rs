//! What a chord symbol names.

use fretloom_theory::{Assumption, Chord, Degree, NoteName, ReadChord, ReadError};
use serde::Serialize;

use super::{FORMAT, Refusal, ascii};

/// A chord as it was read.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ChordAnswer {
    /// The symbol as it was typed.
    pub symbol: String,
    /// The same chord in house style.
    #[serde(rename = "name", serialize_with = "ascii::one")]
    pub chord: Chord,
    /// Its root.
    #[serde(serialize_with = "ascii::one")]
    pub root: NoteName,
    /// The note after the slash.
    #[serde(serialize_with = "ascii::maybe")]
    pub bass: Option<NoteName>,
    /// The notes that the symbol names, the bass apart.
    #[serde(serialize_with = "ascii::list")]
    pub tones: Vec<NoteName>,
    /// What each of them is over the root.
    #[serde(serialize_with = "ascii::list")]
    pub degrees: Vec<Degree>,
    /// What the symbol left open and how it was read.
    #[serde(serialize_with = "ascii::list")]
    pub assumed: Vec<Assumption>,
}

impl ChordAnswer {
    /// The answer for a chord that was read from `symbol`.
    #[must_use]
    pub fn new(symbol: &str, read: &ReadChord) -> ChordAnswer {
        let chord = &read.chord;
        ChordAnswer {
            symbol: symbol.trim().to_owned(),
            root: chord.root(),
            bass: chord.bass(),
            tones: chord.tones().collect(),
            degrees: chord.degrees().to_vec(),
            assumed: read.assumed.clone(),
            chord: chord.clone(),
        }
    }
}

/// The answer of `chord SYMBOL`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct OneChordAnswer {
    format: u32,
    /// The chord.
    pub chord: ChordAnswer,
}

/// What does this symbol name?
///
/// # Errors
///
/// Where it cannot be read.
pub fn chord(symbol: &str) -> Result<OneChordAnswer, Refusal> {
    let read: ReadChord = symbol.parse()?;
    Ok(OneChordAnswer { format: FORMAT, chord: ChordAnswer::new(symbol, &read) })
}

/// The answer of `chord --file`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ChordListAnswer {
    format: u32,
    /// One entry a line, in the order given.
    pub chords: Vec<ChordLine>,
}

/// One line of a list of symbols.
#[derive(Clone, PartialEq, Debug, Serialize)]
#[serde(untagged)]
pub enum ChordLine {
    /// It was read.
    Read(ChordAnswer),
    /// It could not be.
    Unread {
        /// The line.
        symbol: String,
        /// What is wrong.
        error: String,
        /// The character, counted from 1.
        at: usize,
    },
}

/// What does each line name? Blank lines are skipped; a line that cannot be read costs itself only.
#[must_use]
pub fn chord_list(text: &str) -> ChordListAnswer {
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    let read = |line: &str| match line.parse::<ReadChord>() {
        Ok(read) => ChordLine::Read(ChordAnswer::new(line, &read)),
        Err(error) => unread(line, &error),
    };
    ChordListAnswer { format: FORMAT, chords: lines.map(read).collect() }
}

fn unread(line: &str, error: &ReadError) -> ChordLine {
    let symbol = line.trim().chars().take(80).collect();
    ChordLine::Unread { symbol, error: error.to_string(), at: error.at() }
}
