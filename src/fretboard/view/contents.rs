//! What a view shows.

use fretloom_theory::TriadPair;

use super::hidden::Hidden;
use super::place::{ViewPlace, notes_of_pair};
use crate::Neck;

/// What a view leaves to be seen.
#[derive(Clone, PartialEq, Debug)]
pub struct ViewContents {
    places: Vec<ViewPlace>,
    hides: Vec<Hidden>,
}

impl ViewContents {
    pub(super) fn new(
        neck: &Neck,
        pair: TriadPair,
        places: Vec<ViewPlace>,
        mut hides: Vec<Hidden>,
    ) -> ViewContents {
        let others = notes_of_pair(neck, pair).count() - places.len();
        if others > 0 {
            hides.push(Hidden::Places(others));
        }
        ViewContents { places, hides }
    }

    /// The places, in the order of playing; of one pitch the string nearest the floor first.
    #[must_use]
    pub fn places(&self) -> &[ViewPlace] {
        &self.places
    }

    /// What the view does not show, or shows only by a stretch.
    #[must_use]
    pub fn hides(&self) -> &[Hidden] {
        &self.hides
    }
}
