//! What stays and what moves between one pair or shape and the next.

use fretloom_fretboard::{Movement, Shape};
use fretloom_theory::{NoteName, PitchClassSet};

use super::state::Explore;
use crate::answer::PairPlace;
use crate::tui::shared::Shared;
use crate::words::spaced;

impl Explore {
    /// Forgets which notes stay and what moved: both are told until the next key.
    pub(in crate::tui) fn forget_changes(&mut self) {
        self.kept_notes = PitchClassSet::EMPTY;
        self.moved = None;
    }

    /// Does something; if another pair is chosen then, marks the notes that stay, and if another
    /// shape is in hand, keeps what the fingers do.
    pub(super) fn comparing<T>(
        &mut self,
        shared: &mut Shared,
        doing: impl FnOnce(&mut Explore, &mut Shared) -> T,
    ) -> T {
        let (before, shape) = (self.six_notes(), self.shape_in_hand());
        let tuning = shared.setup.tuning.clone();
        let done = doing(self, shared);
        self.mark_kept_notes(before, shared);
        // On another instrument there is no way from one to the other.
        if tuning == shared.setup.tuning {
            self.moved = self.moved_from(shape);
        }
        done
    }

    /// What the fingers do from a shape to the one in hand; none if it is the same one.
    fn moved_from(&self, before: Option<Shape>) -> Option<Movement> {
        let (before, now) = (before?, self.shape_in_hand()?);
        let is_other = before.places() != now.places() || before.fingers() != now.fingers();
        is_other.then(|| Movement::between(&before, &now)).flatten()
    }

    /// The six notes of the chosen pair; none where there is no pair.
    fn six_notes(&self) -> PitchClassSet {
        self.pair().map_or(PitchClassSet::EMPTY, |pair| pair.pair().set())
    }

    /// Marks what stays of the notes that were there before, if the pair has changed; and says so,
    /// where nothing else is to be said.
    fn mark_kept_notes(&mut self, before: PitchClassSet, shared: &mut Shared) {
        let now = self.six_notes();
        if now == before || before.is_empty() || now.is_empty() {
            return;
        }
        self.kept_notes = now.intersection(before);
        if shared.notice.is_none() {
            shared.tell(self.kept_notes_in_words());
        }
    }

    /// `stays: A C`, in the order of the pair.
    fn kept_notes_in_words(&self) -> String {
        let notes = self
            .pair()
            .into_iter()
            .flat_map(|pair| pair.name().names().map(|triad| triad.notes()).concat());
        let stay: Vec<NoteName> =
            notes.filter(|note| self.kept_notes.contains(note.pitch_class())).collect();
        if stay.is_empty() {
            "no note stays".to_owned()
        } else {
            format!("stays: {}", spaced(stay))
        }
    }

    /// The places whose notes stay.
    pub(super) fn kept_places(&self) -> impl Iterator<Item = &PairPlace> {
        self.shown.places.iter().filter(|place| self.kept_notes.contains(place.note.pitch_class()))
    }
}
