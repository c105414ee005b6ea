//! The screens by their names, and what a screen asks of the program above it.

use super::key::Key;

/// A screen by its name.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Screen {
    Explore,
}

/// Something that is to be done outside of a screen, since a screen changes only itself and what
/// all screens share.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum ScreenEffect {
    /// Puts a text on the player's clipboard.
    Copy {
        /// What it is, for the words that tell of it: `the neck`.
        what: &'static str,
        text: String,
    },
    /// Does what a key does now: it was clicked in the footer.
    Press(Key),
}
