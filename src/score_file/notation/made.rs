//! All that is written of a score.

use fretloom_theory::Bar;

use super::bar_pieces::of_voice;
use super::beams::{self, Beam};
use super::beats::Beats;
use super::piece::Piece;
use super::slurs::{Slurs, slurs_of};
use super::voices::{Struck, Voices};
use crate::score_file::write_error::ScoreWriteError;
use crate::score_file::written_score::WrittenScore;

/// All that is written of a score.
pub(crate) struct Notation {
    pub(crate) bars: Vec<Bar>,
    /// What is struck, in order of time.
    pub(crate) struck: Vec<Struck>,
    /// The bars of each voice.
    pub(crate) voices: Vec<Vec<NotatedBar>>,
    /// The slurs of each note.
    pub(crate) slurs: Vec<Slurs>,
}

/// What one voice plays in a bar.
#[derive(Clone, Default)]
pub(crate) struct NotatedBar {
    pub(crate) pieces: Vec<Piece>,
    /// The beams of each piece.
    pub(crate) beams: Vec<Vec<Beam>>,
}

impl Notation {
    /// What is written of a score.
    ///
    /// # Errors
    ///
    /// Where there are too many bars, and where notes are so fine that no tuplet says them.
    pub(crate) fn of(written: &WrittenScore) -> Result<Notation, ScoreWriteError> {
        let (bars, voices) = (written.bars()?, Voices::of(written));
        let notated = |voice: &Vec<usize>| {
            let pieces = of_voice(&voices, voice, &bars)?;
            let bar = |(pieces, bar): (Vec<Piece>, &Bar)| {
                let beams = beams::of_bar(&pieces, &Beats::of(bar));
                NotatedBar { pieces, beams }
            };
            Some(pieces.into_iter().zip(&bars).map(bar).collect())
        };
        let all: Option<Vec<Vec<NotatedBar>>> = voices.voices.iter().map(notated).collect();
        Ok(Notation {
            voices: all.ok_or(ScoreWriteError::TooFine)?,
            slurs: slurs_of(written),
            struck: voices.struck,
            bars,
        })
    }
}
