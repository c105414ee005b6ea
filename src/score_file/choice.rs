//! What to take from a file that holds more than one part.

/// What to take from a file that holds more than one part.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct Choice {
    /// The track of a MIDI file, counted from 1; else the first one with notes.
    pub track: Option<usize>,
    /// The part of a score, by its id or counted from 1; else the first one.
    pub part: Option<String>,
}
