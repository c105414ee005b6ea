//! What the player has settled once and for all: the file `settings.toml`.
//!
//! The file is read entry by entry: a wrong entry is reported with its place and leaves the default
//! in force; it costs no other entry. Every setting is a row of one table. The sample that is printed
//! (`assets/settings.toml`) is a file like a player's own, and says what [`Settings::default`] says.

mod ascii;
mod known;
mod read;
mod rows;
mod settled;
mod value;

pub use ascii::Ascii;
pub use known::Known;
pub use settled::Settings;

/// A file that a player can begin with: every setting, what it means, and its usual value.
pub const SAMPLE: &str = include_str!("../assets/settings.toml");

#[cfg(test)]
mod tests;
