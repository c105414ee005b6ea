//! Finds and reads data files: the embedded ones, then the player's own.
//!
//! Both go through one parser, which hands checked values to the crates. One bad entry costs that
//! entry: what could not be used comes back as a list of [`Problem`]s, and the rest is there.
//! Only [`config_folder`] looks at the system; every reader takes the folder as an argument.

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
