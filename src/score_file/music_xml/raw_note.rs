//! Notes as they stand in their part.

use fretloom_fretboard::Pin;
use fretloom_theory::{Grace, NamedPitch, Note, Quarters, Voice};

use super::time::{self, Time};
use crate::score_file::error::ScoreFileError;

/// How a note is tied to others.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Tied {
    /// Does it go on after its end?
    pub(super) goes_on: bool,
    /// Does one before go on in it?
    pub(super) comes_over: bool,
}

/// A note as it stands in its part.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct RawNote {
    /// When it begins; a grace note's, when its main note does.
    pub(super) from: Time,
    /// How long it is, with all that is tied to it; nothing for a grace note.
    pub(super) duration: Time,
    pub(super) tie: Tied,
    /// Where it is tied.
    pub(super) ties: Vec<Quarters>,
    /// Its place before its main note, if it is a grace note.
    pub(super) grace: Option<Grace>,
    pub(super) pitch: NamedPitch,
    pub(super) pin: Pin,
    pub(super) staff: u32,
    pub(super) voice: Voice,
    /// The bar as it is numbered.
    pub(super) bar: String,
    /// Which bar, counted from 0.
    pub(super) bar_index: u64,
    /// In notes of the lower number of the meter, counted from 1.
    pub(super) beat: f64,
    /// Where it stands, in bytes.
    pub(super) offset: usize,
}

impl RawNote {
    /// The note as a score has it.
    ///
    /// # Errors
    ///
    /// For times that cannot be counted, which there are none of.
    pub(super) fn in_score(&self) -> Result<Note, ScoreFileError> {
        let note = match self.grace {
            Some(grace) => Some(Note::grace_before(self.from.quarters(), grace, self.pitch)),
            None => time::note(self.from, self.duration, self.pitch),
        };
        let note = note.ok_or_else(|| {
            let wrong = "it holds times that cannot be counted";
            ScoreFileError::whole(wrong, "a line of at most a day")
        })?;
        Ok(note.in_voice(self.voice).tied_at(self.ties.iter().copied()))
    }
}
