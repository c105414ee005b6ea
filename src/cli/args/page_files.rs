//! Which files of pages are written.

use std::path::PathBuf;

use clap::{ArgGroup, Args};

use super::value;
use crate::picture::page::Paper;

/// The files of pages that are written.
#[derive(Args, Debug)]
#[group(skip)]
#[command(group = ArgGroup::new("pages").multiple(true))]
#[command(next_help_heading = "On paper")]
pub struct PageFilesArgs {
    /// Write it as pages to a new PDF file
    #[arg(long, value_name = "FILE", group = "pages")]
    pub pdf: Option<PathBuf>,
    /// Write the same pages to a new SVG file, one below the other
    #[arg(long, value_name = "FILE", group = "pages")]
    pub svg: Option<PathBuf>,
    /// The size of the paper: a4 or letter
    #[arg(long, value_parser = value::paper, requires = "pages", value_name = "PAPER",
          default_value = "a4")]
    pub paper: Paper,
    /// Replace files that are there already
    #[arg(long, requires = "pages")]
    pub overwrite: bool,
}
