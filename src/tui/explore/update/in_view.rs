//! Climbing in a view: over the shapes that it shows.

use fretloom_fretboard::{Direction, Ladder, Nearness};

use super::super::state::Explore;
use crate::tui::shared::Shared;

impl Explore {
    /// The next shape that the view shows, by height, and from the last one the first again; the
    /// nearest one, if that in hand is not seen. Does the view show any?
    pub(super) fn climb_in_view(&mut self, direction: Direction, shared: &Shared) -> bool {
        let seen = self.ladder_in_view();
        let in_hand = self.shape_in_hand();
        let next = match in_hand.as_ref().map(|shape| (shape, seen.find(shape))) {
            Some((_, Some(here))) => seen.next(here, direction).or(seen.beginning(direction)),
            Some((shape, None)) => seen.nearest(shape, Nearness::Height, |_| true),
            None => seen.beginning(Direction::Up),
        };
        let Some(rung) = next.and_then(|next| seen.rungs().get(next)) else { return false };
        self.take_rung(rung, shared);
        true
    }

    /// The close shapes of the pair that a view of a position, of strings or of a chain shows; on
    /// locked strings only those there.
    fn ladder_in_view(&self) -> Ladder {
        let shows_shapes = self.chosen.view.shows_shapes();
        let is_here = |set| !self.chosen.locked || Some(set) == self.strings();
        self.shown.everywhere.only(|rung| {
            shows_shapes && is_here(rung.shape.string_set()) && self.is_in_view(&rung.shape)
        })
    }
}
