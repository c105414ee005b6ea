//! What the program lays over any screen.

use crate::tui::sound::SoundPage;
use crate::tui::widget::Search;

/// What lies over the screen in front, if anything.
pub(super) enum Overlay {
    /// The help page, searched.
    Help(Search),
    /// Every command, searched.
    Palette(Search),
    /// How it sounds.
    Sound(SoundPage),
}
