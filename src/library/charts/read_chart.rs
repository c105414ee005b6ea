//! A chart with what a player should know of its file.

use fretloom_theory::{Chart, Melody};

use crate::library::Problem;

/// A chart that has been read, and what a player should know of its file.
#[derive(Clone, PartialEq, Debug)]
pub struct ReadChart {
    /// The chart.
    pub chart: Chart,
    /// Its melody as it is heard, where the file has notes: in the time of the
    /// [chorus](Chart::chorus).
    pub melody: Melody,
    /// What could not be used: bars, which keep their place, choices and keys.
    pub problems: Vec<Problem>,
    /// What was made of the file where there was a choice, a sentence each.
    pub remarks: Vec<String>,
}

impl ReadChart {
    /// A chart without a melody, of whose file there is nothing to say.
    #[must_use]
    pub fn of(chart: Chart) -> ReadChart {
        ReadChart { chart, melody: Melody::default(), problems: Vec::new(), remarks: Vec::new() }
    }
}
