//! What undo and redo go back and forward to.

use super::screens::Chosen;
use crate::tui::shared::Setup;

/// What was chosen at a time: on the screen that was in front, and for all screens; and what was kept.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Step {
    pub(super) setup: Setup,
    pub(super) screen: Chosen,
    /// How much was done with what is kept.
    pub(super) kept: usize,
}
