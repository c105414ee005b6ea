//! What the player has chosen, in one piece: so it can be taken back, and found again tomorrow.

use crate::answer::KeepersQuestion;

/// Every choice of the player on the keepers screen.
#[derive(Clone, PartialEq, Debug, Default)]
pub(in crate::tui) struct Chosen {
    /// Which keepers are listed, and in which order.
    pub(super) question: KeepersQuestion,
}

/// What the screen was turned to: the list, of which there is one.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Page {
    pub(super) chosen: Chosen,
}

impl Page {
    /// Is it the same to someone who turns pages?
    pub(in crate::tui) fn is_like(&self, _other: &Page) -> bool {
        true
    }
}
