//! Where the hand may be: the position, the frets and the strings that the player stays in.

use fretloom_fretboard::{FretRange, StringSet};

use super::super::neck_view::NeckView;
use super::super::state::Explore;
use crate::answer::HandArea;
use crate::tui::shared::Shared;

impl Explore {
    /// Where the hand may be now, as it is typed.
    pub(super) fn hand_area(&self) -> HandArea {
        let position = self.chosen.view.position();
        let strings = self.strings().filter(|_| self.chosen.locked);
        HandArea { position, frets: self.chosen.frets, strings }
    }

    /// Has the hand stay there. Without a position, a view of one gives way to the whole neck.
    pub(super) fn take_area(&mut self, area: HandArea, shared: &Shared) {
        self.settle();
        let held = self.shown.hand.as_ref().map(|hand| (hand.home(), self.chosen.held));
        self.chosen.frets = area.frets;
        let is_there = |set: &StringSet| Some(*set) == area.strings;
        let set = self.shown.sets.iter().position(is_there);
        self.chosen.locked = set.is_some();
        self.chosen.set = set.unwrap_or(self.chosen.set);
        self.chosen.view = match (area.position, self.chosen.view, area.strings) {
            (Some(position), ..) => NeckView::Position(position),
            (None, NeckView::Position(_), _) => NeckView::Whole,
            (None, NeckView::Set(_), Some(set)) => NeckView::Set(set),
            (None, view, _) => view,
        };
        self.stand_again(held, shared);
        // The triad in hand is found there, though the other one may lie nearer.
        if let Some((home, _)) = held
            && self.home_in_hand().is_some_and(|now| now.triad() != home.triad())
        {
            self.seat_same(&home, shared);
        }
        self.settle();
    }

    /// Locks the strings in use, or lets the hand go to all of them.
    pub(super) fn turn_lock(&mut self, shared: &mut Shared) {
        let held = self.shown.hand.as_ref().map(|hand| (hand.home(), self.chosen.held));
        self.chosen.locked = !self.chosen.locked;
        self.tell_lock(shared);
        self.follow(shared);
        // A hand that may stay leaves the neck where the player has scrolled it.
        if !self.shape_in_hand().is_some_and(|shape| self.may_hold(&shape)) {
            self.stand_again(held, shared);
        }
    }

    /// Says what the lock does where the line above the neck does not.
    fn tell_lock(&self, shared: &mut Shared) {
        let is_seen = match self.chosen.view {
            NeckView::Whole | NeckView::Position(_) | NeckView::Across(_) => true,
            NeckView::Set(_) | NeckView::Two(_) => false,
        };
        if !is_seen && let Some(set) = self.strings() {
            let words = if self.chosen.locked { "locked to" } else { "no longer locked to" };
            shared.tell(format!("{words} {set}: that counts in the other views"));
        }
    }

    /// Where the hand may be, after “no shape”: `in position V, on strings 3-2-1, at frets 1–12`.
    pub(in crate::tui::explore) fn area_in_words(&self) -> String {
        let view = match self.chosen.view {
            NeckView::Whole => None,
            NeckView::Position(position) => Some(format!("in position {position}")),
            NeckView::Set(set) if set.len() == 1 => Some(format!("on string {set}")),
            NeckView::Set(set) => Some(format!("on strings {set}")),
            NeckView::Across(_) => Some("in this chain".to_owned()),
            NeckView::Two(_) => Some("in two notes a string".to_owned()),
        };
        let is_set = matches!(self.chosen.view, NeckView::Set(_));
        let strings = self.strings().filter(|_| self.chosen.locked && !is_set);
        let strings = strings.map(|set| format!("on strings {set}"));
        let frets = self.chosen.frets;
        let frets = (frets != FretRange::WHOLE_NECK)
            .then(|| format!("at frets {}–{}", frets.first(), frets.last()));
        let words: Vec<String> = [view, strings, frets].into_iter().flatten().collect();
        if words.is_empty() { "on these strings".to_owned() } else { words.join(", ") }
    }
}
