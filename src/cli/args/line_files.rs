//! Which files a line is written to.

use std::path::PathBuf;

use clap::{ArgGroup, Args};

/// The files that a line is written to.
#[derive(Args, Debug)]
#[group(skip)]
#[command(group = ArgGroup::new("files").multiple(true))]
#[command(group = ArgGroup::new("heard").multiple(true))]
pub struct LineFilesArgs {
    /// Write the line to a new MIDI file, with its drone and a click on tracks of their own
    #[arg(long, value_name = "FILE", groups = ["files", "heard"])]
    pub midi: Option<PathBuf>,
    /// Write the line to a new MusicXML file: staff and tab, with chords, strings and fingers
    #[arg(long, value_name = "FILE", groups = ["files", "heard"])]
    pub musicxml: Option<PathBuf>,
    /// Write what is heard to a new WAV file, 16 bits at 48 kHz: the line alone, and what the options
    /// below add to it
    #[arg(long, value_name = "FILE", groups = ["files", "heard"])]
    pub wav: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "files")]
    pub overwrite: bool,
}
