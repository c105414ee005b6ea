//! Going through chords, scales, pairs and shapes.

use fretloom_fretboard::Rung;
use fretloom_theory::Direction;
use fretloom_theory::WhichTriad;
use fretloom_theory::{Families, Spelling};

use super::super::chosen::TypedChord;
use super::super::circle::wrapped;
use super::super::in_hand::Held;
use super::super::neck_view::NeckView;
use super::super::state::Explore;
use crate::answer::Wishes;
use crate::picture::Labels;
use crate::tui::shared::Shared;

impl Explore {
    /// Takes a chord: its usual scale, its first pair, the hand where it is.
    pub(in crate::tui::explore) fn take_chord(&mut self, chord: TypedChord, shared: &Shared) {
        self.chosen.chord = chord;
        self.take_scale(0, shared);
    }

    /// Takes a scale, and its first pair.
    pub(in crate::tui::explore) fn take_scale(&mut self, scale: usize, shared: &Shared) {
        (self.chosen.scale, self.chosen.row, self.chosen.copy) = (scale, 0, 0);
        self.lay_out(shared);
    }

    pub(super) fn take_wishes(&mut self, wishes: Wishes, shared: &Shared) {
        self.chosen.wishes = wishes;
        (self.chosen.row, self.chosen.copy) = (0, 0);
        self.lay_out(shared);
    }

    pub(super) fn change_families(&mut self, shared: &Shared) {
        self.chosen.families = wrapped(self.chosen.families, 1, Families::usual().len());
        (self.chosen.row, self.chosen.copy) = (0, 0);
        self.lay_out(shared);
    }

    pub(super) fn step_pair(&mut self, by: isize, shared: &mut Shared) {
        if self.shown.pairs.classes.len() < 2 {
            shared.tell("there is no other pair in the list");
        }
        self.chosen.row = wrapped(self.chosen.row, by, self.shown.pairs.classes.len());
        self.chosen.copy = 0;
        self.lay_out(shared);
    }

    /// The next copy of the same pair in a symmetric scale, the first one after the last.
    pub(super) fn move_pair(&mut self, shared: &mut Shared) {
        let transpositions = self
            .shown
            .pairs
            .classes
            .get(self.chosen.row)
            .map_or(0, |class| class.transpositions.len());
        if transpositions == 0 {
            shared.tell("this scale repeats nowhere: the pair has no other place in it");
        }
        self.chosen.copy = wrapped(self.chosen.copy, 1, transpositions + 1);
        self.lay_out(shared);
    }

    pub(super) fn step_scale(&mut self, by: isize, shared: &mut Shared) {
        if self.shown.scales.len() < 2 {
            shared.tell("no other scale fits this chord");
        }
        self.take_scale(wrapped(self.chosen.scale, by, self.shown.scales.len()), shared);
    }

    /// The next set of strings; of those that hold a shape in the view, where any does.
    pub(super) fn step_strings(&mut self, by: isize, shared: &mut Shared) {
        let count = self.shown.sets.len();
        let around = (1..=count).map(|step| step as isize * by);
        let mut around = around.map(|by| wrapped(self.chosen.set, by, count));
        let Some(next) = around.find(|set| self.may_go_to(*set)) else {
            self.tell_no_shape(shared);
            return;
        };
        if next == self.chosen.set {
            shared.tell(format!("no other strings hold a shape {}", self.area_in_words()));
        }
        self.go_to_set(next, shared);
    }

    /// Does the view go along to these strings, or show a shape on them?
    pub(super) fn may_go_to(&self, set: usize) -> bool {
        let goes_along = match self.chosen.view {
            NeckView::Set(_) | NeckView::Two(_) => true,
            NeckView::Whole | NeckView::Position(_) | NeckView::Across(_) => false,
        };
        let strings = self.shown.sets.get(set).copied();
        let is_there =
            |rung: &Rung| Some(rung.shape.string_set()) == strings && self.is_in_view(&rung.shape);
        goes_along || self.shown.everywhere.rungs().iter().any(is_there)
    }

    /// Goes to a set of strings; a lock and a view of strings go along.
    pub(super) fn go_to_set(&mut self, set: usize, shared: &Shared) {
        let home = self.home_in_hand();
        self.chosen.set = set;
        if let (NeckView::Set(_), Some(set)) = (self.chosen.view, self.strings()) {
            self.chosen.view = NeckView::Set(set);
        }
        self.let_go(shared);
        if let NeckView::Two(_) = self.chosen.view {
            self.view_near(home.as_ref(), shared);
        }
        self.chosen.view = self.view_shown();
        self.seat(home.as_ref(), shared);
    }

    /// The next fingers for the shape in hand.
    pub(super) fn other_fingers(&mut self, shared: &mut Shared) {
        let Some(hand) = &self.shown.hand else { return self.tell_no_shape(shared) };
        self.chosen.held = hand.next_fingers(self.chosen.held);
        self.follow(shared);
        let hand = self.shown.hand.as_ref();
        shared.notice = hand.map(|hand| hand.fingers_told(self.chosen.held));
    }

    /// The next place of the notes in hand.
    pub(super) fn other_place(&mut self, shared: &mut Shared) {
        let Some(hand) = &self.shown.hand else { return self.tell_no_shape(shared) };
        let next = hand.next_place(self.chosen.held, |shape| self.may_hold(shape));
        shared.tell(match (next.place == self.chosen.held.place, hand.lies_elsewhere()) {
            (true, false) => "these notes lie nowhere else under one hand".to_owned(),
            (true, true) => format!("nowhere else {}", self.area_in_words()),
            (false, _) => hand.place_told(next),
        });
        self.hold(self.chosen.rung, next, shared);
    }

    /// What stands in the marks next; an order only where the view has one.
    pub(super) fn next_labels(&mut self) {
        let all = Labels::ALL;
        let at = all.iter().position(|one| *one == self.chosen.labels).unwrap_or_default();
        let next = all
            .iter()
            .cycle()
            .skip(at + 1)
            .find(|labels| **labels != Labels::Order || self.shown.view.is_some());
        self.chosen.labels = next.copied().unwrap_or_default();
    }

    /// Draws the notes that the pair leaves out, or no longer.
    pub(super) fn turn_left_out(&mut self, shared: &mut Shared) {
        self.chosen.shows_left_out = !self.chosen.shows_left_out;
        if self.shown.left_out.is_empty() {
            shared.tell("the pair leaves no note of this scale out");
        }
    }

    pub(super) fn change_spelling(&mut self, shared: &mut Shared) {
        shared.setup.spelling = match shared.setup.spelling {
            Spelling::Plain => Spelling::Strict,
            Spelling::Strict => Spelling::Plain,
        };
        shared.tell(match shared.setup.spelling {
            Spelling::Plain => "triads are spelled as triads",
            Spelling::Strict => "triads are spelled by the letters of the scale",
        });
        self.lay_out(shared);
    }

    /// Takes the next shape of the ladder. Where the set of strings ends, the climb goes on with the
    /// next set, and where the neck ends it turns round; on locked strings it turns at once. In a
    /// view it goes over the shapes that the view shows. `key` goes on, or the other way.
    pub(super) fn climb(&mut self, key: Direction, shared: &mut Shared) {
        if self.chosen.view != NeckView::Whole {
            self.climb_in_view(key, shared);
            return;
        }
        let direction = self.way_of(key);
        let next = self.chosen.rung.and_then(|rung| self.shown.ladder.next(rung, direction));
        match next {
            Some(rung) => self.hold(Some(rung), Held::default(), shared),
            None if self.chosen.locked => self.turn_on_strings(direction, shared),
            None => self.climb_on(direction, shared),
        }
    }

    /// Where a key goes now: on, or the other way.
    pub(super) fn way_of(&self, key: Direction) -> Direction {
        match key {
            Direction::Up => self.chosen.going,
            Direction::Down => turned(self.chosen.going),
        }
    }

    /// From the end of the ladder of these strings back.
    fn turn_on_strings(&mut self, direction: Direction, shared: &mut Shared) {
        let back = turned(direction);
        let ladder = &self.shown.ladder;
        let next = match self.chosen.rung {
            Some(rung) => ladder.next(rung, back),
            None => ladder.beginning(direction),
        };
        let (Some(next), Some(set)) = (next, self.strings()) else {
            return self.tell_end(shared);
        };
        self.hold(Some(next), Held::default(), shared);
        self.turn_round(&format!("strings {set} end here"), direction, shared);
    }

    /// Goes on where the ladder of these strings ends; where the neck ends too, back.
    fn climb_on(&mut self, direction: Direction, shared: &mut Shared) {
        let all = &self.shown.everywhere;
        let here = self.rung_in_hand().and_then(|rung| all.find(&rung.shape));
        let step = |way| here.and_then(|here| all.climb(here, way)).map(|step| step.rung);
        let (on, back) = (step(direction), step(turned(direction)));
        let begin = || if here.is_none() { all.beginning(direction) } else { None };
        let next = on.or(back).or_else(begin).and_then(|next| all.rungs().get(next)).copied();
        let (Some(next), Some(old)) = (next, self.strings()) else {
            return self.tell_end(shared);
        };
        self.take_rung(&next, shared);
        match on {
            Some(_) => {
                shared.tell(format!("strings {old} end here: on to {}", next.shape.string_set()));
            }
            None => self.turn_round("the neck ends here", direction, shared),
        }
    }

    /// The climb has come to an end, and goes back from there.
    pub(super) fn turn_round(&mut self, end: &str, direction: Direction, shared: &mut Shared) {
        self.chosen.going = turned(self.chosen.going);
        let back = match direction {
            Direction::Up => "down",
            Direction::Down => "up",
        };
        shared.tell(format!("{end}: turning round, {back} again"));
    }

    /// Says why a climb goes nowhere: one shape, or none.
    fn tell_end(&self, shared: &mut Shared) {
        if self.chosen.rung.is_some() {
            shared.tell(format!("the only shape {}", self.area_in_words()));
        } else {
            self.tell_no_shape(shared);
        }
    }

    /// The next shape of one triad going up on the strings in use; past the last one it begins
    /// again. In a view it goes through those that the view shows.
    pub(super) fn next_inversion(&mut self, which: WhichTriad, shared: &mut Shared) {
        if self.chosen.view != NeckView::Whole {
            self.inversion_in_view(which, shared);
            return;
        }
        let ladder = &self.shown.ladder;
        let above = self.chosen.rung.and_then(|rung| ladder.next_of(rung, which, Direction::Up));
        let lowest = || ladder.rungs().iter().position(|rung| rung.which == which);
        match above.or_else(lowest) {
            Some(next) if Some(next) == self.chosen.rung => {
                shared.tell(format!("its only shape {}", self.area_in_words()));
            }
            Some(next) => self.hold(Some(next), Held::default(), shared),
            None => self.tell_no_shape(shared),
        }
    }
}

/// The other way.
pub(super) const fn turned(direction: Direction) -> Direction {
    match direction {
        Direction::Up => Direction::Down,
        Direction::Down => Direction::Up,
    }
}
