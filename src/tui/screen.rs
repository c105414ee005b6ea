//! The screens by their names, and what a screen asks of the program above it.

use super::key::Key;
use super::line_place::{ChordSeed, LineSeed};
use super::sound::Piece;
use crate::store::{Keeper, NewKeeper};

/// A screen by its name.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Screen {
    Explore,
    Line,
    Changes,
    Keepers,
}

/// Something that is to be done outside of a screen, since a screen changes only itself and what
/// all screens share.
#[derive(Debug)]
pub(super) enum ScreenEffect {
    /// Puts a text on the player's clipboard.
    Copy {
        /// What it is, for the words that tell of it: `the neck`.
        what: &'static str,
        text: String,
    },
    /// Brings another screen to the front, as it was left.
    Show(Screen),
    /// Brings a line of these pairs to the front.
    MakeLine(LineSeed),
    /// Brings this chord with its scale and its pair to the front, in the explorer.
    Explore(ChordSeed),
    /// Keeps this.
    Keep(Box<NewKeeper>),
    /// Opens a keeper as it was.
    Open(Box<Keeper>),
    /// Plays this from its beginning.
    Play(Piece),
    /// Ends what is heard.
    StopPlaying,
    /// Does what a key does now: it was clicked in the footer.
    Press(Key),
}
