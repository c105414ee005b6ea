//! Chord symbols: how chords are written, in every common dialect.
//!
//! A symbol is read from left to right, word by word (`read_chord/reader.rs`); at the end what
//! was read becomes degrees (`read_chord/parsed_symbol.rs`). Some signs mean what their place says: `-` and `+`
//! right after the root are minor and augmented, before a later number they are a flat and a sharp.
//! Nothing is guessed silently: what a symbol leaves open is returned as [`Assumption`]s.

mod assumption;
mod parsed_symbol;
mod plain;
mod problem;
mod reader;
mod word;

use std::borrow::Cow;
use std::str::FromStr;

pub use assumption::Assumption;

use crate::{Chord, ReadError};
use parsed_symbol::ParsedSymbol;
use plain::plain;
use reader::{LONGEST, Reader};

/// A chord with what was taken for granted in reading it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadChord {
    /// The chord.
    pub chord: Chord,
    /// What the symbol left open, and how it was read.
    pub assumed: Vec<Assumption>,
}

impl FromStr for Chord {
    type Err = ReadError;

    /// Reads a chord symbol in any common dialect; [`ReadChord`] tells what was taken for granted.
    ///
    /// # Errors
    ///
    /// Where a part of the symbol cannot be read, with its place and what could stand there.
    fn from_str(symbol: &str) -> Result<Chord, ReadError> {
        Ok(symbol.parse::<ReadChord>()?.chord)
    }
}

impl FromStr for ReadChord {
    type Err = ReadError;

    /// Reads a chord symbol in any common dialect, in time linear in its length.
    ///
    /// # Errors
    ///
    /// Where a part of the symbol cannot be read, with its place and what could stand there.
    fn from_str(symbol: &str) -> Result<ReadChord, ReadError> {
        let plain = plain(symbol);
        read(&plain).map_err(|error| match plain {
            Cow::Borrowed(_) => error,
            Cow::Owned(_) => error.quoting(symbol, LONGEST),
        })
    }
}

fn read(symbol: &str) -> Result<ReadChord, ReadError> {
    let mut parsed = ParsedSymbol::default();
    let (root, mut reader) = Reader::after_root(symbol, &mut parsed)?;
    let flat_is_rare = root.accidental() == -1 && !root.is_everyday();
    if flat_is_rare && reader.stands_before_a_number() {
        parsed.assume(Assumption::FlatBelongsToRoot);
    }
    let bass = reader.read_body(&mut parsed)?;
    let (chord, assumed) =
        parsed.finish(root, bass).map_err(|problem| reader.wrong_here(problem.expected()))?;
    Ok(ReadChord { chord, assumed })
}
