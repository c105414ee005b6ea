//! What a chord symbol names.

use fretloom_theory::{ReadChord, ReadError};

use super::refusal::Refusal;

/// A chord symbol as it was typed, and the chord that it names: the answer of `chord SYMBOL`.
#[derive(Clone, PartialEq, Debug)]
pub struct TypedChord {
    /// The symbol, without the spaces around it.
    pub symbol: String,
    /// The chord, and what the symbol left open.
    pub read: ReadChord,
}

impl TypedChord {
    /// The chord that was read from `symbol`.
    #[must_use]
    pub fn new(symbol: &str, read: ReadChord) -> TypedChord {
        TypedChord { symbol: symbol.trim().to_owned(), read }
    }
}

/// What does this symbol name?
///
/// # Errors
///
/// Where it cannot be read.
pub fn chord(symbol: &str) -> Result<TypedChord, Refusal> {
    Ok(TypedChord::new(symbol, symbol.parse()?))
}

/// The answer of `chord --file`: what each line of a list names, in the order given.
#[derive(Clone, PartialEq, Debug)]
pub struct ChordListAnswer {
    /// One entry for each line that is not blank.
    pub lines: Vec<ChordLine>,
}

/// One line of a list of symbols.
#[derive(Clone, PartialEq, Debug)]
pub enum ChordLine {
    /// It was read.
    Read(TypedChord),
    /// It could not be read.
    Unread {
        /// The line, cut where it is long.
        symbol: String,
        /// What is wrong with it, and where.
        error: ReadError,
    },
}

/// What does each line name? Blank lines are skipped; a line that cannot be read costs itself only.
#[must_use]
pub fn chord_list(text: &str) -> ChordListAnswer {
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    ChordListAnswer { lines: lines.map(read_line).collect() }
}

fn read_line(line: &str) -> ChordLine {
    match line.parse() {
        Ok(read) => ChordLine::Read(TypedChord::new(line, read)),
        Err(error) => ChordLine::Unread { symbol: line.trim().chars().take(80).collect(), error },
    }
}
