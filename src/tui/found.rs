//! What jobs of the program find out.

use std::path::PathBuf;
use std::sync::Arc;

use fretloom_theory::Chart;

use crate::answer::{ChangesAnswer, Refusal};
use crate::library::{ChartFile, ChartNotSaved, FileNotWritten, ReadChart};
use crate::tui::sound::FoundSound;

/// What a job of the program has found out.
#[derive(Debug)]
#[non_exhaustive]
pub enum Found {
    /// What is to be heard.
    Sound(FoundSound),
    /// The plans of a chart.
    Plan(Box<FoundPlan>),
    /// A file that was to be opened.
    Opened(Box<OpenedChart>),
    /// A chart that was to be written.
    Saved(Box<SavedChart>),
    /// A line that was to be written for other programs.
    LineWritten(Box<WrittenMusic>),
    /// Comping that was to be.
    CompingWritten(Box<WrittenMusic>),
    /// Something has been done with what is kept.
    Keepers,
}

/// A chart that was read from a file, or why there is none.
#[derive(Debug)]
pub struct OpenedChart {
    /// Which of the files it was asked for, counted by the screen.
    pub(in crate::tui) number: u64,
    /// The file, where the chart can be saved in it.
    pub(in crate::tui) file: Option<ChartFile>,
    pub(in crate::tui) read: Result<ReadChart, String>,
}

/// What has become of a chart that was to be saved.
#[derive(Debug)]
pub struct SavedChart {
    /// Which of the files it was asked for, counted by the screen.
    pub(in crate::tui) number: u64,
    pub(in crate::tui) path: PathBuf,
    pub(in crate::tui) chart: Arc<Chart>,
    pub(in crate::tui) outcome: Result<ChartFile, ChartNotSaved>,
}

/// What has become of music that was to be written.
#[derive(Debug)]
pub struct WrittenMusic {
    /// Which of the files it was asked for, counted by the screen.
    pub(in crate::tui) number: u64,
    pub(in crate::tui) path: PathBuf,
    pub(in crate::tui) outcome: Result<(), MusicNotWritten>,
}

/// Why music was not written.
#[derive(Debug)]
pub(in crate::tui) enum MusicNotWritten {
    /// There is none, or a file of that kind cannot hold it, in words.
    Music(String),
    /// The file cannot be written.
    File(FileNotWritten),
}

/// The plans of a chart, or why there are none.
#[derive(Debug)]
pub struct FoundPlan {
    /// Which of the charts it was asked for, counted by the screen.
    pub(in crate::tui) number: u64,
    pub(in crate::tui) answer: Result<ChangesAnswer, Refusal>,
}
