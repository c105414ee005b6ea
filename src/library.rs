//! Finds and reads data files: the embedded ones, then the player's own.
//!
//! Both go through one parser, which gives checked values to the crates. A bad entry is left out and
//! reported as a [`Problem`]; everything else is used. Only [`Folders::from_environment`] asks the
//! system where the player's folder is; every reader of files takes the folder as an argument.

mod charts;
pub(crate) mod fields;
pub(crate) mod files;
mod folders;
mod in_quotes;
mod patterns;
mod phrases;
pub(crate) mod problem;
mod readers;
pub(crate) mod recover;
mod scales;
mod source;
pub(crate) mod staged_file;
mod tunings;
mod unread_files;
mod written_file;

pub use charts::{
    ChartFile, ChartNotSaved, KnownChart, LONGEST_CHART, LoadedCharts, OpenedChart, ReadChart,
    text_of_chart,
};
pub use files::bytes_of_file;
pub use folders::{Folders, SystemFolders};
pub use patterns::{LoadedPatterns, NamedPattern};
pub use phrases::{
    AskedPhrase, MOST_PHRASES, PhraseArea, PhraseView, phrases_of_text, text_of_phrases,
};
pub use problem::Problem;
pub use readers::{MOST_READERS, Reader, readers_of_text};
pub use scales::OwnScales;
pub use source::Source;
pub use tunings::{LoadedTunings, search_tunings};
pub use unread_files::unread_files;
pub use written_file::{FileNotWritten, FileThere, write_file};

use std::path::Path;

/// What the data files hold, the built-in ones and the player's own.
#[derive(Clone, PartialEq, Debug)]
pub struct Library {
    /// The tunings, built in and the player's own.
    pub tunings: LoadedTunings,
    /// The player's own scales.
    pub scales: OwnScales,
    /// The patterns, built in and the player's own.
    pub patterns: LoadedPatterns,
    /// The charts, built in and the player's own, each of which is read when it is wanted.
    pub charts: LoadedCharts,
    /// What is wrong with other files of the player: settings, keys, themes.
    other_problems: Vec<Problem>,
}

impl Library {
    /// The built-in files and those in the player's folder, if there is one.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> Library {
        Library {
            tunings: LoadedTunings::load(config_folder),
            scales: OwnScales::load(config_folder),
            patterns: LoadedPatterns::load(config_folder),
            charts: LoadedCharts::load(config_folder),
            other_problems: Vec::new(),
        }
    }

    /// Adds problems of files that are read elsewhere, so that the screen can list all problems.
    pub fn add_problems(&mut self, problems: impl IntoIterator<Item = Problem>) {
        self.other_problems.extend(problems);
    }

    /// Everything in the player's files that could not be used.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        let own = self.tunings.problems().iter().chain(self.scales.problems());
        own.chain(self.patterns.problems()).chain(&self.other_problems)
    }
}
