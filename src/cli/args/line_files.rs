//! Which files a line is written to.

use std::path::PathBuf;

use clap::{ArgGroup, Args};

use super::value;
use crate::picture::page::Paper;

/// The files that a line is written to.
#[derive(Args, Debug)]
#[group(skip)]
#[command(group = ArgGroup::new("files").multiple(true))]
#[command(group = ArgGroup::new("heard").multiple(true))]
#[command(group = ArgGroup::new("pages").multiple(true))]
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
    /// Write it as pages to a new PDF file: a line as staff and tab, a plan as a chart
    #[arg(long, value_name = "FILE", groups = ["files", "pages"])]
    pub pdf: Option<PathBuf>,
    /// Write the same pages to a new SVG file, one below the other
    #[arg(long, value_name = "FILE", groups = ["files", "pages"])]
    pub svg: Option<PathBuf>,
    /// The size of the paper: a4 or letter
    #[arg(long, value_parser = value::paper, requires = "pages", value_name = "PAPER",
          default_value = "a4")]
    pub paper: Paper,
    /// Replace files that are there already
    #[arg(long, requires = "files")]
    pub overwrite: bool,
}
