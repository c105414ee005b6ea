//! Finds and reads data files: the embedded ones, then the player's own.
//!
//! Both go through one parser, which hands checked values to the crates. One bad entry costs that
//! entry: what could not be used comes back as a list of [`Problem`]s, and the rest is there.
//! Only [`config_folder`] and [`Library::from_environment`] ask the system where the player's folder
//! is; every reader of files takes the folder as an argument.

mod config_folder;
mod fields;
mod files;
mod problem;
mod scales;
mod source;
mod tunings;

pub use config_folder::config_folder;
pub use problem::Problem;
pub use scales::OwnScales;
pub use source::Source;
pub use tunings::LoadedTunings;

use std::path::Path;

/// All data files that there are: built in, and the player's own.
#[derive(Clone, PartialEq, Debug)]
pub struct Library {
    /// The tunings.
    pub tunings: LoadedTunings,
    /// The player's own scales.
    pub scales: OwnScales,
}

impl Library {
    /// The built-in files and those in the player's folder, if there is one.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> Library {
        Library {
            tunings: LoadedTunings::load(config_folder),
            scales: OwnScales::load(config_folder),
        }
    }

    /// The built-in files and those in the folder that the environment names.
    #[must_use]
    pub fn from_environment() -> Library {
        let xdg = std::env::var_os("XDG_CONFIG_HOME");
        Library::load(config_folder(xdg.as_deref()).as_deref())
    }

    /// What could not be used.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        self.tunings.problems().iter().chain(self.scales.problems())
    }
}
