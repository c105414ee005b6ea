//! What to take from a file of notes.

use clap::Args;

use super::value;
use crate::score_file::{Choice, Repeats};

/// What to take from a file of notes.
#[derive(Args, Debug)]
pub struct ChoiceArgs {
    /// Which track of a MIDI file, counted from 1 or by its name, instead of the first with notes
    #[arg(long, value_name = "TRACK", allow_negative_numbers = true)]
    track: Option<String>,
    /// Which part of MusicXML, counted from 1 or by its name or id, instead of the first with notes
    #[arg(long, value_name = "PART", allow_negative_numbers = true)]
    part: Option<String>,
    /// Play the repeats and endings of MusicXML, D.C. and D.S. too, one after another
    #[arg(long)]
    unfold: bool,
    /// So many semitones higher, with keys and chords; negative for lower
    #[arg(long, value_name = "SEMITONES", allow_negative_numbers = true, default_value = "0",
          hide_default_value = true, value_parser = value::up_or_down(60))]
    pub transpose: i8,
}

impl ChoiceArgs {
    /// As the readers of files take it.
    #[must_use]
    pub fn choice(&self) -> Choice {
        Choice {
            track: self.track.clone(),
            part: self.part.clone(),
            repeats: if self.unfold { Repeats::Unfolded } else { Repeats::AsWritten },
        }
    }
}
