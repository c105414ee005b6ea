//! What settings are checked against.

use crate::library::LoadedTunings;

/// What values are checked against: what else there is, and what the screen can use.
#[derive(Clone, Copy)]
pub struct Known<'a> {
    /// The tunings there are.
    pub tunings: &'a LoadedTunings,
    /// The names of the themes there are, in the order in which they are told.
    pub themes: &'a [&'a str],
    /// The key of a foot pedal in its usual notation, or what was expected in its place.
    pub pedal: &'a dyn Fn(&str) -> Result<String, String>,
}
