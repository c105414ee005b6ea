//! Which files a line is written to.

use std::path::PathBuf;

use clap::Args;

/// The files that a line is written to.
#[derive(Args, Debug)]
#[group(skip)]
pub struct LineFilesArgs {
    /// Write the line to a new MIDI file, with its drone and a click on tracks of their own
    #[arg(long, value_name = "FILE", group = "files")]
    pub midi: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "files")]
    pub overwrite: bool,
}
