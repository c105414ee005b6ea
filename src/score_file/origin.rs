//! Where in its file a note stands.

use std::fmt;

use super::error::At;

/// Where in its file a note stands, so that a message can name it.
///
/// Prints as `note 4 (line 2, column 5)`, `track 1, bar 3, beat 2.5` or
/// `bar 12, beat 1 (line 40, column 7)`.
#[derive(Clone, PartialEq, Debug)]
pub enum NoteOrigin {
    /// The how-manieth in a list, counted from 1.
    Listed {
        /// Which note.
        number: usize,
        /// Where it begins in the text.
        at: At,
    },
    /// In a track.
    InTrack {
        /// The track, counted from 1.
        track: usize,
        /// Bar and beat, both counted from 1; none in a file that counts frames of film.
        bar: Option<(u64, f64)>,
        /// When it begins, in seconds.
        onset_s: f64,
    },
    /// In a written bar.
    InBar {
        /// The bar as it is numbered.
        bar: String,
        /// The beat, counted from 1.
        beat: f64,
        /// Where it begins in the text.
        at: At,
    },
}

/// A beat with at most two decimals.
struct Beat(f64);

impl fmt::Display for Beat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", (self.0 * 100.0).round() / 100.0)
    }
}

/// A place in text between brackets.
struct Bracketed(At);

impl fmt::Display for Bracketed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            At::Text { line, column } => write!(f, " (line {line}, column {column})"),
            At::Whole | At::Byte { .. } => Ok(()),
        }
    }
}

impl fmt::Display for NoteOrigin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoteOrigin::Listed { number, at } => write!(f, "note {number}{}", Bracketed(*at)),
            NoteOrigin::InTrack { track, bar: Some((bar, beat)), .. } => {
                write!(f, "track {track}, bar {bar}, beat {}", Beat(*beat))
            }
            NoteOrigin::InTrack { track, bar: None, onset_s } => {
                write!(f, "track {track}, second {}", Beat(*onset_s))
            }
            NoteOrigin::InBar { bar, beat, at } => {
                write!(f, "bar {bar}, beat {}{}", Beat(*beat), Bracketed(*at))
            }
        }
    }
}
