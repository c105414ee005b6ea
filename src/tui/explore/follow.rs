//! From what is chosen to what is shown: the hand stays as near as it can to where it was, and where
//! the view, the wanted frets and the lock allow it.

use fretloom_fretboard::{Nearness, Rung, Shape};
use fretloom_theory::WhichTriad;

use super::in_hand::{Held, InHand};
use super::neck_view::{Across, NeckView, ShownView};
use super::state::Explore;
use crate::tui::shared::Shared;

impl Explore {
    /// Shows what follows from what is chosen now.
    pub(super) fn follow(&mut self, shared: &Shared) {
        self.shown.follow(&self.chosen, shared);
    }

    /// Shows what follows from another chord, scale, pair or tuning: the row of the list stays where
    /// it can, and the hand goes to the shape that is nearest to the one that was played.
    pub(super) fn lay_out(&mut self, shared: &Shared) {
        self.lay_out_near(self.played.or(self.home_in_hand()), shared);
    }

    /// The same, with the hand near this shape; near none, it takes the first usual one.
    pub(super) fn lay_out_near(&mut self, shape: Option<Shape>, shared: &Shared) {
        self.chosen.view = self.chosen.view.on(shared.neck(), self.strings());
        self.let_go(shared);
        self.stay_in_list(shared);
        self.view_near(shape.as_ref(), shared);
        self.seat(shape.as_ref(), shared);
    }

    /// The rung's own shape that is in hand, or was last.
    pub(super) fn home_in_hand(&self) -> Option<Shape> {
        self.shown.hand.as_ref().map(InHand::home).or(self.played)
    }

    /// The shape in hand is one that the player plays.
    pub(super) fn settle(&mut self) {
        self.played = self.home_in_hand();
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

    /// Takes the way of the view that lies near a shape: the best chain over it, or over the nearest
    /// one; the run that begins nearest to its position.
    pub(super) fn view_near(&mut self, shape: Option<&Shape>, shared: &Shared) {
        match (self.chosen.view, shape) {
            (NeckView::Across(_), Some(shape)) => {
                let here = self.shown.everywhere.find(shape).or_else(|| self.rung_near(shape));
                let rung = here.and_then(|rung| self.shown.everywhere.rungs().get(rung));
                let through = rung.map(|rung| rung.shape.places());
                self.chosen.view = NeckView::Across(Across { through, way: 0 });
                self.follow(shared);
            }
            (NeckView::Two(_), Some(shape)) => {
                let position = shape.position();
                let way = self.shown.view.as_ref().map(|view| view.way_near(position));
                self.chosen.view = NeckView::Two(way.unwrap_or_default());
                self.follow(shared);
            }
            (NeckView::Whole | NeckView::Position(_) | NeckView::Set(_), _) | (_, None) => {}
        }
        self.chosen.view = self.view_shown();
    }

    /// The view that is chosen; where it has fewer ways by now, in the last of them.
    pub(super) fn view_shown(&self) -> NeckView {
        let way = self.shown.view.as_ref().map(ShownView::way);
        way.map_or(self.chosen.view, |way| self.chosen.view.in_way(way))
    }

    /// Takes the shape nearest to another one in hand, of those that may be held: on the strings in
    /// use if there is one, else on any; near none, the first usual one.
    pub(super) fn seat(&mut self, near: Option<&Shape>, shared: &Shared) {
        let here = self.strings();
        let may = |rung: &Rung| self.may_hold(&rung.shape);
        let on_these = |rung: &Rung| may(rung) && Some(rung.shape.string_set()) == here;
        let all = &self.shown.everywhere;
        let nearest = |wanted: &dyn Fn(&Rung) -> bool| match near {
            Some(shape) => all.nearest(shape, Nearness::Frets, wanted),
            None => self.rung_to_begin(wanted),
        };
        let rung = nearest(&on_these).or_else(|| nearest(&may));
        match rung.and_then(|rung| all.rungs().get(rung)).copied() {
            Some(rung) => self.take_rung(&rung, shared),
            None => self.hold(None, Held::default(), shared),
        }
    }

    /// Shows what follows from another place for the hand: it holds what it held if it may, else what
    /// is nearest.
    pub(super) fn stand_again(&mut self, held: Option<(Shape, Held)>, shared: &Shared) {
        let played = self.played;
        self.let_go(shared);
        self.chosen.view = self.view_shown();
        match held {
            Some((home, held)) => self.hold_again(&home, held, shared),
            None => self.seat(played.as_ref(), shared),
        }
    }

    /// Holds a shape of the ladder again as it was held, if it may be held now; else the nearest.
    pub(super) fn hold_again(&mut self, home: &Shape, held: Held, shared: &Shared) {
        let there = self.shown.everywhere.find(home);
        let rung = there.and_then(|rung| self.shown.everywhere.rungs().get(rung)).copied();
        match rung.filter(|rung| self.may_hold(&rung.shape)) {
            Some(rung) => {
                self.take_rung(&rung, shared);
                self.hold_as(held, shared);
            }
            None => self.seat(Some(home), shared),
        }
    }

    /// Takes the nearest shape of the same triad in hand, of those that may be held; where there is
    /// none, the nearest of either.
    pub(super) fn seat_same(&mut self, home: &Shape, shared: &Shared) {
        let here = self.strings();
        let same = |rung: &Rung| rung.shape.triad() == home.triad() && self.may_hold(&rung.shape);
        let on_these = |rung: &Rung| same(rung) && Some(rung.shape.string_set()) == here;
        let all = &self.shown.everywhere;
        let nearest = all.nearest(home, Nearness::Frets, on_these);
        let nearest = nearest.or_else(|| all.nearest(home, Nearness::Frets, same));
        match nearest.and_then(|rung| all.rungs().get(rung)).copied() {
            Some(rung) => self.take_rung(&rung, shared),
            None => self.seat(Some(home), shared),
        }
    }

    /// Holds the rung in hand that way, as far as there is such a place where the hand may be, and
    /// are such fingers.
    pub(super) fn hold_as(&mut self, held: Held, shared: &Shared) {
        self.chosen.held = held;
        self.follow(shared);
        let possible = self.shown.hand.as_ref().map(|hand| hand.possible(held));
        self.chosen.held = possible.unwrap_or_default();
        self.follow(shared);
        if self.shape_in_hand().is_some_and(|shape| !self.may_hold(&shape)) {
            self.chosen.held = Held::default();
            self.follow(shared);
        }
        self.follow_hand(shared);
    }

    /// Takes a rung in hand in one of the ways to hold it, and keeps it in view.
    pub(super) fn hold(&mut self, rung: Option<usize>, held: Held, shared: &Shared) {
        (self.chosen.rung, self.chosen.held) = (rung, held);
        self.follow(shared);
        self.follow_hand(shared);
    }

    /// Takes a rung of the ladder of all strings in hand, and goes to its strings.
    pub(super) fn take_rung(&mut self, wanted: &Rung, shared: &Shared) {
        let set = self.set_of(wanted).unwrap_or(self.chosen.set);
        if set != self.chosen.set {
            self.chosen.set = set;
            self.let_go(shared);
        }
        let rung = self.shown.ladder.find(&wanted.shape);
        self.hold(rung.or(self.chosen.rung), Held::default(), shared);
    }

    /// Which of the sets has the strings of a rung.
    pub(super) fn set_of(&self, rung: &Rung) -> Option<usize> {
        self.shown.sets.iter().position(|set| *set == rung.shape.string_set())
    }

    /// The lowest shape of the first triad without open strings among those that are wanted, where
    /// there is one.
    fn rung_to_begin(&self, wanted: &dyn Fn(&Rung) -> bool) -> Option<usize> {
        let rungs = self.shown.everywhere.rungs();
        let good = |rung: &Rung| {
            rung.which == WhichTriad::First && rung.shape.frets().iter().all(|fret| !fret.is_open())
        };
        let best = rungs.iter().position(|rung| wanted(rung) && good(rung));
        best.or_else(|| rungs.iter().position(wanted))
    }

    /// The rung whose frets lie nearest to those of a shape, on the strings in use.
    fn rung_near(&self, shape: &Shape) -> Option<usize> {
        let here = self.strings();
        let on_these = |rung: &Rung| Some(rung.shape.string_set()) == here;
        self.shown.everywhere.nearest(shape, Nearness::Frets, on_these)
    }
}
