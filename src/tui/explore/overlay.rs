//! What is laid over the explorer: a field, or a list on the whole screen.

use super::tuning_list::TuningList;
use crate::tui::command::Section;
use crate::tui::widget::TextField;

/// What lies over the explorer, if anything.
pub(super) enum Overlay {
    /// A chord is being typed.
    Chord(TextField),
    /// Wishes are being typed.
    Wishes(TextField),
    /// Where the hand may be is being typed.
    Where(TextField),
    /// The list of tunings.
    Tunings(Box<TuningList>),
    /// The list of scales, with one marked.
    Scales(usize),
    /// All about the chosen pair, with the line on top.
    Details(usize),
}

impl Overlay {
    /// Where keys are pressed while it lies there.
    pub(super) fn section(&self) -> Section {
        match self {
            Overlay::Chord(_) | Overlay::Wishes(_) | Overlay::Where(_) => Section::Typing,
            Overlay::Scales(_) | Overlay::Details(_) => Section::List,
            Overlay::Tunings(_) => Section::Picking,
        }
    }
}
