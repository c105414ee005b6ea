//! What a click does to the explorer.

use fretloom_fretboard::{Nearness, Place, Rung, StringNumber};

use super::super::hit::Hit;
use super::super::in_hand::Held;
use super::super::state::Explore;
use crate::picture::NeckHit;
use crate::tui::command::ListCommand;
use crate::tui::gesture::Spot;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::widget::ListLine;

impl Explore {
    /// Takes what lies under the mouse.
    pub(in crate::tui) fn click(&mut self, hit: Hit, shared: &mut Shared) -> Vec<ScreenEffect> {
        self.comparing(shared, |explore, shared| explore.take(hit, shared))
    }

    fn take(&mut self, hit: Hit, shared: &mut Shared) -> Vec<ScreenEffect> {
        match hit {
            Hit::Footer(key) => return vec![ScreenEffect::Press(key)],
            Hit::Line(line) => self.take_line(line, shared),
            Hit::Pair(line) => self.take_row(line, shared),
            Hit::Scale(line) => self.take_row_of_scales(line, shared),
            Hit::OnNeck(hit) => self.take_on_neck(hit, shared),
            Hit::Pairs | Hit::Scales | Hit::Neck | Hit::List => {}
        }
        Vec::new()
    }

    /// Marks the line; a second click takes it, as Enter does.
    fn take_line(&mut self, line: ListLine, shared: &mut Shared) {
        if shared.clicked == Some((Spot::Line, line)) {
            shared.clicked = None;
            self.obey_in_list(ListCommand::Accept, shared);
        } else {
            shared.clicked = Some((Spot::Line, line));
            self.mark_line(line.line, shared);
        }
    }

    fn take_row(&mut self, line: ListLine, shared: &mut Shared) {
        (shared.notice, shared.clicked) = (None, Some((Spot::Pair, line)));
        // The row in use may show a copy of its pair, which is what was pointed at.
        if line.line != self.chosen.row {
            (self.chosen.row, self.chosen.copy) = (line.line, 0);
            self.lay_out(shared);
        }
    }

    fn take_row_of_scales(&mut self, line: ListLine, shared: &mut Shared) {
        (shared.notice, shared.clicked) = (None, Some((Spot::Scale, line)));
        if line.line != self.chosen.scale {
            self.take_scale(line.line, shared);
        }
    }

    fn take_on_neck(&mut self, hit: NeckHit, shared: &mut Shared) {
        shared.notice = None;
        self.settle();
        match hit {
            NeckHit::Place(place) => self.take_note(place, shared),
            NeckHit::Name(string) => self.go_to_string(string, shared),
        }
        self.settle();
    }

    /// Takes the shape with that note that is nearest in the ladder; on other strings, if these
    /// have none.
    fn take_note(&mut self, place: Place, shared: &mut Shared) {
        let holds =
            |rung: &Rung| rung.shape.places().contains(&place) && self.may_hold(&rung.shape);
        let in_hand = self.rung_in_hand();
        let ladder = &self.shown.ladder;
        let nearest = in_hand.and_then(|r| ladder.nearest(&r.shape, Nearness::Rungs, holds));
        if nearest.is_some() {
            self.hold(nearest, Held::default(), shared);
            return;
        }
        let there = self.shown.everywhere.rungs().iter().filter(|rung| holds(rung));
        let far = |rung: &&Rung| self.set_of(rung).map(|set| set.abs_diff(self.chosen.set));
        match there.min_by_key(far).copied() {
            Some(rung) => self.take_rung(&rung, shared),
            None if self.is_free() => shared.tell("no close shape of the pair has this place"),
            None => shared.tell(format!("no close shape has this place {}", self.area_in_words())),
        }
    }

    /// On a string of the set in use its lock; on any other one the nearest set that has it.
    fn go_to_string(&mut self, string: StringNumber, shared: &mut Shared) {
        let sets = &self.shown.sets;
        let has = |set: usize| {
            let set = sets.get(set);
            set.is_some_and(|set| set.iter().any(|one| one == string))
        };
        if has(self.chosen.set) {
            self.turn_lock(shared);
            return;
        }
        let there = (0..sets.len()).filter(|set| has(*set) && self.may_go_to(*set));
        match there.min_by_key(|set| set.abs_diff(self.chosen.set)) {
            Some(set) => self.go_to_set(set, shared),
            None => self.tell_no_shape(shared),
        }
    }
}
