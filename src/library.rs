//! Finds and reads data files: the embedded ones, then the player's own.
//!
//! Both go through one parser, which hands checked values to the crates. One bad entry costs that
//! entry: what could not be used comes back as a list of [`Problem`]s, and the rest is there.
//! Only [`Folders::from_environment`] asks the system where the player's folder is; every reader of
//! files takes the folder as an argument.

pub(crate) mod fields;
pub(crate) mod files;
mod folders;
pub(crate) mod problem;
pub(crate) mod recover;
mod scales;
mod source;
mod strays;
mod tunings;

pub use folders::{Custom, Folders};
pub use problem::Problem;
pub use scales::OwnScales;
pub use source::Source;
pub use strays::strays;
pub use tunings::LoadedTunings;

use std::path::Path;

/// All data files that there are: built in, and the player's own.
#[derive(Clone, PartialEq, Debug)]
pub struct Library {
    /// The tunings.
    pub tunings: LoadedTunings,
    /// The player's own scales.
    pub scales: OwnScales,
    /// What is wrong with other files of the player: settings, keys, themes.
    others: Vec<Problem>,
}

impl Library {
    /// The built-in files and those in the player's folder, if there is one.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> Library {
        Library {
            tunings: LoadedTunings::load(config_folder),
            scales: OwnScales::load(config_folder),
            others: Vec::new(),
        }
    }

    /// Keeps what was found wrong in files that others read, so that the screen tells it all.
    pub fn add_problems(&mut self, problems: impl IntoIterator<Item = Problem>) {
        self.others.extend(problems);
    }

    /// What could not be used.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        let own = self.tunings.problems().iter().chain(self.scales.problems());
        own.chain(&self.others)
    }
}
