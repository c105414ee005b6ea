//! How a line is to be fingered.

use std::path::PathBuf;

use clap::Args;

use super::choice::ChoiceArgs;
use super::value;
use super::where_to::WhereTo;

/// `finger`
#[derive(Args, Debug)]
pub struct Finger {
    /// The line: a MIDI file, MusicXML, also compressed (.mxl), or JSON with notes; - is standard input
    pub file: PathBuf,
    /// How many ways to show at most
    #[arg(long, value_name = "K", allow_negative_numbers = true, default_value = "3",
          value_parser = value::number(1, 20))]
    pub ways: u8,
    /// Only on these strings, 1 being the one nearest the floor: 4-3-2-1
    #[arg(long, value_name = "STRINGS")]
    pub strings: Option<String>,
    /// In which frets, and for whose hand
    #[command(flatten)]
    pub where_to: WhereTo,
    /// With the hand in one position only: 5 or V
    #[arg(long, value_name = "POSITION")]
    pub position: Option<String>,
    /// Up to which fret your hand likes to be
    #[arg(long, value_name = "FRET", allow_negative_numbers = true, default_value = "5",
          value_parser = value::number(0, 36))]
    pub home: u8,
    /// Open strings as gladly as any other note, not only where they save a long way
    #[arg(long, conflicts_with = "no_open")]
    pub like_open: bool,
    /// What to take from the file
    #[command(flatten)]
    pub choice: ChoiceArgs,
    /// So many octaves higher; -1 for what is written an octave above its sound
    #[arg(long, value_name = "N", allow_negative_numbers = true, default_value = "0",
          hide_default_value = true, value_parser = value::up_or_down(5))]
    pub octave: i8,
    /// Leave out the strings and frets that the file itself gives
    #[arg(long)]
    pub no_pins: bool,
}
