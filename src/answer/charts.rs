//! The charts that there are.

use fretloom_theory::{Chart, OptionalChords, ScaleKind};

use crate::library::{KnownChart, LoadedCharts, Source};

/// The answer of `charts`.
#[derive(Clone, PartialEq, Debug)]
pub struct ChartsAnswer {
    /// Every chart that can be read, built-in ones first.
    pub charts: Vec<ChartAnswer>,
}

/// A chart of the library.
#[derive(Clone, PartialEq, Debug)]
pub struct ChartAnswer {
    /// What it is asked for by.
    pub id: String,
    /// Where it comes from.
    pub source: Source,
    /// The chart.
    pub chart: Chart,
}

impl ChartsAnswer {
    /// Which charts are there? Reads all of them; scales of the player's `own` kinds are known by name.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::ChartsAnswer;
    /// use fretloom::library::LoadedCharts;
    /// let answer = ChartsAnswer::new(&LoadedCharts::load(None), &[]);
    /// let waltz = answer.charts.iter().find(|one| one.id == "salt-on-the-windowsill").unwrap();
    /// assert_eq!(waltz.bars(), 24);
    /// ```
    #[must_use]
    pub fn new(loaded: &LoadedCharts, own: &[ScaleKind]) -> ChartsAnswer {
        let answer = |known: &KnownChart| {
            let chart = known.open(own).ok()?.read.chart;
            Some(ChartAnswer { id: known.id.clone(), source: known.source.clone(), chart })
        };
        ChartsAnswer { charts: loaded.iter().filter_map(answer).collect() }
    }
}

impl ChartAnswer {
    /// How many bars are heard once through, repeats and jumps played out.
    #[must_use]
    pub fn bars(&self) -> usize {
        self.chart.bars.unfolded(OptionalChords::LeftOut).heard.len()
    }
}
