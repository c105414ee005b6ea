//! From what is chosen to what is shown: the hand stays as near as it can to where it was.

use fretloom_fretboard::{Nearness, Rung, Shape, WhichTriad};

use super::in_hand::{Held, InHand};
use super::state::Explore;
use crate::tui::shared::Shared;

impl Explore {
    /// Shows what follows from what is chosen now.
    pub(super) fn follow(&mut self, shared: &Shared) {
        self.shown.follow(&self.chosen, shared);
    }

    /// Shows what follows from another chord, scale, pair, tuning or set of strings: the row of the
    /// list stays where it can, and the hand goes to the shape that is nearest to the one it held.
    pub(super) fn lay_out(&mut self, shared: &Shared) {
        self.lay_out_near(self.shown.hand.as_ref().map(InHand::home), shared);
    }

    /// The same, with the hand near this shape; near none, it takes the first usual one.
    pub(super) fn lay_out_near(&mut self, shape: Option<Shape>, shared: &Shared) {
        self.let_go(shared);
        self.stay_in_list(shared);
        let rung = shape.map_or_else(|| self.rung_to_begin(), |shape| self.rung_near(&shape));
        self.chosen.view = self.view_shown();
        self.hold(rung, Held::default(), shared);
    }

    /// Shows what follows from what is chosen now, with no shape in hand: the ladder has changed, and
    /// which of its shapes comes next is found out later.
    pub(super) fn let_go(&mut self, shared: &Shared) {
        (self.chosen.rung, self.chosen.held) = (None, Held::default());
        self.follow(shared);
    }

    /// Moves the row to one that the list of pairs has, after the list has changed.
    fn stay_in_list(&mut self, shared: &Shared) {
        let last = self.shown.pairs.classes.len().saturating_sub(1);
        if self.chosen.row > last {
            self.chosen.row = last;
            self.follow(shared);
        }
        if self.pair().is_none() && self.chosen.copy > 0 {
            self.chosen.copy = 0;
            self.follow(shared);
        }
    }

    /// Takes a rung in hand in one of the ways to hold it, and keeps it in view.
    pub(super) fn hold(&mut self, rung: Option<usize>, held: Held, shared: &Shared) {
        (self.chosen.rung, self.chosen.held) = (rung, held);
        self.follow(shared);
        self.follow_hand(shared);
    }

    /// Goes to the strings of a rung of the ladder of all strings, and takes its shape there.
    pub(super) fn take_rung(&mut self, wanted: &Rung, shared: &Shared) {
        let set = self.set_of(wanted).unwrap_or(self.chosen.set);
        if set != self.chosen.set {
            self.chosen.set = set;
            self.lay_out(shared);
        }
        let rung = self.shown.ladder.find(&wanted.shape);
        self.hold(rung.or(self.chosen.rung), Held::default(), shared);
    }

    /// Which of the sets has the strings of a rung.
    pub(super) fn set_of(&self, rung: &Rung) -> Option<usize> {
        self.shown.sets.iter().position(|set| *set == rung.shape.string_set())
    }

    /// The lowest shape of the first triad without open strings, where there is one.
    fn rung_to_begin(&self) -> Option<usize> {
        let rungs = self.shown.ladder.rungs();
        let good = |rung: &Rung| {
            rung.which == WhichTriad::First && rung.shape.frets().iter().all(|fret| !fret.is_open())
        };
        rungs.iter().position(good).or((!rungs.is_empty()).then_some(0))
    }

    /// The rung whose frets lie nearest to those of a shape.
    fn rung_near(&self, shape: &Shape) -> Option<usize> {
        self.shown.ladder.nearest(shape, Nearness::Frets, |_| true)
    }
}
