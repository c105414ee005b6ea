//! The player's settings: the file `settings.toml`.
//!
//! The file is read entry by entry. A wrong entry is reported with its place and keeps its default;
//! the other entries are still used. Every setting is a row of one table. The sample file
//! (`assets/settings.toml`) is read like a player's own, and equals [`Settings::default`].

mod ascii;
mod known;
mod read;
mod rows;
mod settled;
mod value;

pub use ascii::Ascii;
pub use known::Known;
pub use settled::Settings;

/// A file that a player can begin with: every setting, its meaning, and its default value.
pub const SAMPLE: &str = include_str!("../assets/settings.toml");

#[cfg(test)]
mod tests;
