//! The explorer as it is to be drawn: its state beside what all screens share.

use super::state::Explore;
use crate::tui::shared::Shared;

/// What a frame, a click and the clipboard are made from.
#[derive(Clone, Copy)]
pub(in crate::tui) struct Drawing<'a> {
    pub(super) explore: &'a Explore,
    pub(super) shared: &'a Shared,
}

impl<'a> Drawing<'a> {
    /// The explorer in this surrounding.
    pub(in crate::tui) fn new(explore: &'a Explore, shared: &'a Shared) -> Drawing<'a> {
        Drawing { explore, shared }
    }
}
