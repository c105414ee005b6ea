//! What stands over the staff.

use std::fmt;

use crate::Chord;

/// What stands over the staff from a moment on: a chord, that there is none, or a symbol that
/// could not be read and is kept as it was written.
///
/// # Example
///
/// ```
/// use fretloom_theory::ChordSymbol;
/// assert_eq!(ChordSymbol::read("G7").chord().unwrap().to_string(), "G7");
/// assert_eq!(ChordSymbol::read("N.C."), ChordSymbol::NoChord);
/// assert_eq!(ChordSymbol::read("Hx"), ChordSymbol::Unread("Hx".to_owned()));
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ChordSymbol {
    /// A chord.
    Chord(Chord),
    /// `N.C.`
    NoChord,
    /// A symbol that could not be read.
    Unread(String),
}

impl ChordSymbol {
    /// How much of a symbol that cannot be read is kept, in characters.
    const KEPT: usize = 80;

    /// What a text says.
    #[must_use]
    pub fn read(text: &str) -> ChordSymbol {
        match text.parse() {
            _ if Chord::is_no_chord(text) => ChordSymbol::NoChord,
            Ok(chord) => ChordSymbol::Chord(chord),
            Err(_) => ChordSymbol::unread(text),
        }
    }

    /// A text that could not be read, cut where it is long.
    pub(crate) fn unread(text: &str) -> ChordSymbol {
        ChordSymbol::Unread(text.chars().take(ChordSymbol::KEPT).collect())
    }

    /// The chord, if it is one.
    #[must_use]
    pub fn chord(&self) -> Option<&Chord> {
        match self {
            ChordSymbol::Chord(chord) => Some(chord),
            ChordSymbol::NoChord | ChordSymbol::Unread(_) => None,
        }
    }
}

impl fmt::Display for ChordSymbol {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ChordSymbol::Chord(chord) => chord.fmt(f),
            ChordSymbol::NoChord => f.write_str("N.C."),
            ChordSymbol::Unread(text) => f.write_str(text),
        }
    }
}
