//! Climbing in a view: over the shapes that it shows, or over its runs of single notes.

use fretloom_fretboard::{Ladder, Nearness};
use fretloom_theory::Direction;
use fretloom_theory::WhichTriad;

use super::super::in_hand::InHand;
use super::super::neck_view::NeckView;
use super::super::state::Explore;
use super::moves::turned;
use crate::tui::command::{Command, ExploreCommand};
use crate::tui::shared::Shared;

impl Explore {
    /// The next shape that the view shows, by height, and from the last one back; in a view of two
    /// notes a string the next run.
    pub(super) fn climb_in_view(&mut self, key: Direction, shared: &mut Shared) {
        if let NeckView::Two(_) = self.chosen.view {
            let by = match key {
                Direction::Up => 1,
                Direction::Down => -1,
            };
            self.step_choice(by, shared);
            return;
        }
        let direction = self.way_of(key);
        let seen = self.ladder_in_view();
        let in_hand = self.shown.hand.as_ref().map(InHand::home);
        let here = in_hand.as_ref().and_then(|shape| seen.find(shape));
        let on = match (in_hand.as_ref(), here) {
            (_, Some(here)) => seen.next(here, direction),
            (Some(shape), None) => seen.nearest(shape, Nearness::Height, |_| true),
            (None, None) => seen.beginning(direction),
        };
        let back = || seen.next(here?, turned(direction));
        let next = on.or_else(back).or(here);
        let Some(rung) = next.and_then(|next| seen.rungs().get(next)) else {
            self.tell_no_shape(shared);
            return;
        };
        self.take_rung(rung, shared);
        let area = self.area_in_words();
        if next == here {
            shared.tell(format!("the only shape {area}"));
        } else if on.is_none() {
            self.turn_round(&format!("the last shape {area}"), direction, shared);
        }
    }

    /// The next inversion of a triad that the view shows, from the last one the first again.
    pub(super) fn inversion_in_view(&mut self, which: WhichTriad, shared: &mut Shared) {
        let seen = self.ladder_in_view();
        let in_hand = self.shown.hand.as_ref().map(InHand::home);
        let here = in_hand.as_ref().and_then(|shape| seen.find(shape));
        let above = here.and_then(|here| seen.next_of(here, which, Direction::Up));
        let lowest = || seen.rungs().iter().position(|rung| rung.which == which);
        let next = above.or_else(lowest);
        let Some(rung) = next.and_then(|next| seen.rungs().get(next)) else {
            self.tell_no_shape(shared);
            return;
        };
        self.take_rung(rung, shared);
        if next == here {
            shared.tell(format!("its only shape {}", self.area_in_words()));
        }
    }

    /// Says that the hand has nowhere to go, and which key gives it more room.
    pub(super) fn tell_no_shape(&self, shared: &mut Shared) {
        let key = match self.chosen.view {
            NeckView::Whole => ExploreCommand::EditWhere,
            NeckView::Position(_) | NeckView::Set(_) | NeckView::Across(_) | NeckView::Two(_) => {
                ExploreCommand::NextView
            }
        };
        let key = shared.key_of(Command::Explore(key));
        shared.tell(format!("no such shape {}: {key} gives more room", self.area_in_words()));
    }

    /// The shapes of the pair that may be held now.
    pub(super) fn ladder_in_view(&self) -> Ladder {
        self.shown.everywhere.only(|rung| self.may_hold(&rung.shape))
    }
}
