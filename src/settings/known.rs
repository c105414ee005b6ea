//! What settings are checked against.

use crate::library::LoadedTunings;

/// What values are checked against. The caller supplies it, since settings know no screen.
#[derive(Clone, Copy)]
pub struct Known<'a> {
    /// The tunings of the library.
    pub tunings: &'a LoadedTunings,
    /// The names of all themes, in the order in which messages list them.
    pub themes: &'a [&'a str],
    /// Reads the key of a foot pedal: gives its usual notation, or says what was expected.
    pub pedal: &'a dyn Fn(&str) -> Result<String, String>,
}
