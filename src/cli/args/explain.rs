//! What is to be explained.

use std::path::PathBuf;

use clap::Args;

use super::value;

/// `explain`
#[derive(Args, Debug)]
pub struct Explain {
    /// The line with its chords: JSON as line --json prints it, JSON with notes and chords,
    /// MusicXML with chord symbols, also compressed (.mxl), or a MIDI file; - is standard input
    pub file: PathBuf,
    /// The chords, bar by bar, in place of those of the file: "| Dm7 | G7 |"; they go round
    #[arg(long, value_name = "BARS")]
    pub chords: Option<String>,
    /// Which track of a MIDI file, counted from 1, instead of the first with notes
    #[arg(long, value_name = "N", value_parser = value::track_number)]
    pub track: Option<usize>,
    /// Which part of MusicXML, by its id or counted from 1, instead of the first
    #[arg(long, value_name = "PART")]
    pub part: Option<String>,
}
