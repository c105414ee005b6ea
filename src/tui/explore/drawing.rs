//! The explorer together with what all screens share, as drawing and clicks need it.

use super::state::Explore;
use crate::tui::shared::Shared;

/// What a frame and a copied text are made from, and what a click is looked up in.
#[derive(Clone, Copy)]
pub(in crate::tui) struct Drawing<'a> {
    pub(super) explore: &'a Explore,
    pub(super) shared: &'a Shared,
}

impl<'a> Drawing<'a> {
    /// This explorer with what all screens share.
    pub(in crate::tui) fn new(explore: &'a Explore, shared: &'a Shared) -> Drawing<'a> {
        Drawing { explore, shared }
    }
}
