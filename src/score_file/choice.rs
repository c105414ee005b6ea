//! What to take from a file that holds more than one part, and how.

/// What to take from a file that holds more than one part, and how.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct Choice {
    /// The track of a MIDI file, counted from 1, or by its name or a piece of it; else the first one
    /// with notes.
    pub track: Option<String>,
    /// The part of a score, by its id, counted from 1, or by its name or a piece of it; else the
    /// first one with notes.
    pub part: Option<String>,
    /// Whether repeats are played.
    pub repeats: Repeats,
}

/// Whether the repeats of a score are played.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub enum Repeats {
    /// Every bar once, in the order in which it is written.
    #[default]
    AsWritten,
    /// Repeats, endings, and going back from `D.C.` and `D.S.`, one after another.
    Unfolded,
}
