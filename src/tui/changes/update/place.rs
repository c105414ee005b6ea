//! Where the hand stays while the bars go by.

use fretloom_fretboard::HandPosition;

use super::super::place::string_sets;
use super::super::state::ChangesScreen;
use super::{Way, other};
use crate::answer::HandArea;
use crate::tui::command::{ChangesCommand, Command};
use crate::tui::shared::Shared;

impl ChangesScreen {
    /// The next three strings, at last any.
    pub(super) fn step_strings(&mut self, way: Way, shared: &mut Shared) {
        let sets = string_sets(shared.neck());
        match other(&sets, Some(&self.chosen.area.strings), way) {
            Some(strings) => self.stay(HandArea { strings, ..self.chosen.area }),
            None => shared.tell("there are no other strings"),
        }
    }

    /// In a position near the hand, or anywhere along the neck.
    pub(super) fn step_view(&mut self, shared: &mut Shared) {
        let position = match self.chosen.area.position {
            Some(_) => None,
            None => Some(self.position().max(HandPosition::lowest_on(shared.neck()))),
        };
        self.stay_if_there(HandArea { position, ..self.chosen.area }, shared);
    }

    /// The next position.
    pub(super) fn step_position(&mut self, way: Way, shared: &mut Shared) {
        let Some(now) = self.chosen.area.position else {
            let key = shared.key_of(Command::Changes(ChangesCommand::NextView));
            shared.tell(format!("the hand is in no position: {key} takes one"));
            return;
        };
        let last = shared.neck().tuning().last_fret().number();
        let lowest = HandPosition::lowest_on(shared.neck()).number();
        let all: Vec<HandPosition> = (lowest..=last).filter_map(HandPosition::new).collect();
        if let Some(next) = other(&all, Some(&now), way) {
            self.stay_if_there(HandArea { position: Some(next), ..self.chosen.area }, shared);
        }
    }

    /// Where the hand is now; in the middle of the neck where it holds nothing.
    fn position(&self) -> HandPosition {
        let in_hand = self.chord().and_then(|chord| chord.hand);
        let position = in_hand.map(|hand| hand.shape.shape.position());
        position.or(HandPosition::new(5)).unwrap_or(HandPosition::FIRST)
    }

    /// Stays in another part of the neck.
    pub(super) fn stay(&mut self, area: HandArea) {
        (self.chosen.area, self.chosen.plan) = (area, 0);
    }

    fn stay_if_there(&mut self, area: HandArea, shared: &mut Shared) {
        match area.check(shared.neck()) {
            Ok(()) => self.stay(area),
            Err(refusal) => shared.tell(refusal.to_string()),
        }
    }
}
