//! What is laid over the explorer: a field, or a list on the whole screen.

use super::picker::Picker;
use crate::tui::command::Section;
use crate::tui::widget::Search;
use crate::tui::widget::TextField;

/// What lies over the explorer, if anything.
pub(super) enum Over {
    Nothing,
    /// A chord is being typed.
    Chord(TextField),
    /// Wishes are being typed.
    Wish(TextField),
    /// The help page, searched.
    Help(Search),
    /// Every command, searched.
    Palette(Search),
    /// The list of tunings.
    Tunings(Box<Picker>),
    /// The list of scales, with one marked.
    Scales(usize),
}

impl Over {
    /// Where keys are pressed while it lies there.
    pub(super) fn section(&self) -> Section {
        match self {
            Over::Nothing => Section::Explore,
            Over::Chord(_) | Over::Wish(_) => Section::Typing,
            Over::Scales(_) => Section::List,
            Over::Help(_) | Over::Palette(_) | Over::Tunings(_) => Section::Picking,
        }
    }

    /// Does it take the whole screen, with lines to go through?
    pub(super) fn is_list(&self) -> bool {
        matches!(self.section(), Section::List | Section::Picking)
    }
}
