//! The shape in hand over a chord, as the player wants it.

use fretloom_fretboard::Place;
use fretloom_theory::ChartChoice;

use super::super::place;
use super::super::state::ChangesScreen;
use super::{Way, other};
use crate::answer::{ChartMoment, HeldHere, shapes_in_region};
use crate::tui::command::{ChangesCommand, Command};
use crate::tui::shared::Shared;
use crate::words::dashed;

impl ChangesScreen {
    /// The next of the shapes that the pair has where the hand stays. It is settled with its pair, and
    /// the shapes before and after it follow.
    pub(super) fn step_shape(&mut self, way: Way, shared: &mut Shared) {
        let Some((chord, before)) = self.in_hand(shared) else { return };
        let (Some(hand), Some(region)) = (chord.hand, place::region(self.chosen.area)) else {
            return self.tell_of_no_hand(shared);
        };
        let names = before.pair.unwrap_or(chord.pair.names());
        let pair = chord.sound().pair();
        let shapes = shapes_in_region(shared.neck(), region, shared.hand, pair);
        let places: Vec<[Place; 3]> = shapes.iter().map(|shape| shape.places()).collect();
        let held = self.held_at(&before).map(|held| held.places);
        let now = held.unwrap_or(hand.shape.shape.places());
        let Some(next) = other(&places, Some(&now), way) else {
            shared.tell("the pair has no other shape where the hand stays");
            return;
        };
        let rank = places.iter().position(|one| *one == next).map_or(0, |at| at + 1);
        let frets = dashed(next.map(|place| place.fret));
        shared.tell(format!("shape {rank} of {}: {frets}, settled with its pair", places.len()));
        self.hold(next, ChartChoice { pair: Some(names), ..before });
    }

    /// The shape in hand stays what it is, whatever else changes; or the plan chooses it again.
    pub(super) fn hold_or_let_go(&mut self, shared: &mut Shared) {
        let Some((chord, before)) = self.in_hand(shared) else { return };
        let Some(hand) = chord.hand else { return self.tell_of_no_hand(shared) };
        if self.held_at(&before).is_some() {
            shared.tell("the plan chooses the shape again; its pair stays settled");
            self.let_go(&before);
            return;
        }
        let (places, names) = (hand.shape.shape.places(), chord.pair.names());
        shared.tell(format!("{} stays in hand here", dashed(hand.shape.frets)));
        self.hold(places, ChartChoice { pair: Some(names), ..before });
    }

    fn hold(&mut self, places: [Place; 3], choice: ChartChoice) {
        self.let_go(&choice);
        self.chosen.held.push(HeldHere { places, moment: moment_of(&choice) });
        self.settle(choice);
    }

    /// No shape is settled at the moment of a choice any more.
    pub(super) fn let_go(&mut self, choice: &ChartChoice) {
        let moment = moment_of(choice);
        self.chosen.held.retain(|held| held.moment != moment);
    }

    /// The shape that is settled at the moment of a choice.
    fn held_at(&self, choice: &ChartChoice) -> Option<&HeldHere> {
        let moment = moment_of(choice);
        self.chosen.held.iter().find(|held| held.moment == moment)
    }

    fn tell_of_no_hand(&self, shared: &mut Shared) {
        let key = shared.key_of(Command::Changes(ChangesCommand::NextStrings));
        shared.tell(format!("the hand is anywhere: {key} locks it to strings"));
    }
}

fn moment_of(choice: &ChartChoice) -> ChartMoment {
    ChartMoment { bar: choice.bar, beat: choice.beat }
}
