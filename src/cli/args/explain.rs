//! What is to be explained.

use std::path::PathBuf;

use clap::Args;

use super::choice::ChoiceArgs;

/// `explain`
#[derive(Args, Debug)]
pub struct Explain {
    /// The line with its chords: JSON as line --json prints it, JSON with notes and chords,
    /// MusicXML with chord symbols, also compressed (.mxl), or a MIDI file; - is standard input
    pub file: PathBuf,
    /// The chords, bar by bar, in place of those of the file: "| Dm7 | G7 |"; they go round
    #[arg(long, value_name = "BARS")]
    pub chords: Option<String>,
    /// What to take from the file
    #[command(flatten)]
    pub choice: ChoiceArgs,
}
