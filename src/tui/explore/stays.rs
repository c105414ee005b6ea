//! What stays when the pair changes: the notes that both pairs hold.

use fretloom_theory::{NoteName, PitchClassSet};

use super::Explore;
use crate::answer::PairPlace;
use crate::words::spaced;

impl Explore {
    /// The six notes of the chosen pair; none where there is no pair.
    pub(super) fn six_notes(&self) -> PitchClassSet {
        self.pair().map_or(PitchClassSet::EMPTY, |pair| pair.pair().set())
    }

    /// Marks what stays of the notes that were heard before, if the pair has changed, until the next
    /// key; and says so, where nothing else is to be said.
    pub(super) fn mark_what_stays(&mut self, before: PitchClassSet) {
        let now = self.six_notes();
        let changed = now != before && !before.is_empty() && !now.is_empty();
        self.stays = if changed { now.intersection(before) } else { PitchClassSet::EMPTY };
        if changed && self.notice.is_none() {
            self.notice = Some(self.stays_in_words());
        }
    }

    /// `stays: A C`, in the order of the pair.
    fn stays_in_words(&self) -> String {
        let notes = self
            .pair()
            .into_iter()
            .flat_map(|pair| pair.name().names().map(|triad| triad.notes()).concat());
        let stay: Vec<NoteName> =
            notes.filter(|note| self.stays.contains(note.pitch_class())).collect();
        if stay.is_empty() {
            "no note stays".to_owned()
        } else {
            format!("stays: {}", spaced(stay))
        }
    }

    /// The places whose notes stay.
    pub(super) fn places_that_stay(&self) -> impl Iterator<Item = &PairPlace> {
        self.shown.places.iter().filter(|place| self.stays.contains(place.note.pitch_class()))
    }
}
