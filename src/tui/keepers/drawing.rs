//! The keepers screen together with what all screens share, as drawing and clicks need it.

use super::state::KeepersScreen;
use crate::tui::shared::Shared;

/// What a frame is made from, and what a click is looked up in.
#[derive(Clone, Copy)]
pub(in crate::tui) struct Drawing<'a> {
    pub(super) screen: &'a KeepersScreen,
    pub(super) shared: &'a Shared,
}

impl<'a> Drawing<'a> {
    /// This screen with what all screens share.
    pub(in crate::tui) fn new(screen: &'a KeepersScreen, shared: &'a Shared) -> Drawing<'a> {
        Drawing { screen, shared }
    }
}
