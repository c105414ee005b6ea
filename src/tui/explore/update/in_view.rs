//! The hand in a view: it is where one looks, and climbs over what is seen.

use fretloom_fretboard::{Rung, Shape, Way};

use super::super::Explore;
use super::wrapped;

impl Explore {
    /// The next shape that the view shows, by height, and from the last one the first again; the
    /// nearest one, if that in hand is not seen. Does the view show any?
    pub(super) fn climb_in_view(&mut self, way: Way) -> bool {
        let seen = self.rungs_in_view();
        let in_hand = self.shape_in_hand().map(|shape| shape.places());
        let here = seen.iter().position(|rung| Some(rung.shape.places()) == in_hand);
        let by = if way == Way::Up { 1 } else { -1 };
        let next = match here {
            Some(here) => seen.get(wrapped(here, by, seen.len())),
            None => seen.iter().min_by_key(|rung| self.semitones_from_hand(rung)),
        };
        let Some(rung) = next.copied() else { return false };
        self.take_rung(&rung);
        true
    }

    fn semitones_from_hand(&self, rung: &Rung) -> i32 {
        let height = |shape: &Shape| -> i32 {
            shape.pitches().iter().map(|pitch| i32::from(pitch.midi())).sum()
        };
        let in_hand = self.shape_in_hand().as_ref().map(height).unwrap_or_default();
        (height(&rung.shape) - in_hand).abs()
    }

    /// The close shapes of the pair that a view of a position, of strings or of a chain shows, by
    /// height; on locked strings only those there.
    fn rungs_in_view(&self) -> Vec<Rung> {
        if !self.look.shows_shapes() {
            return Vec::new();
        }
        let here = |rung: &&Rung| !self.locked || Some(rung.shape.string_set()) == self.strings();
        let all = self.everywhere.rungs().iter().filter(here);
        all.filter(|rung| self.is_in_view(&rung.shape)).copied().collect()
    }
}
