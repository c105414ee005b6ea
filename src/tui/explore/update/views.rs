//! Going through the views of the neck and the choices of each.

use fretloom_fretboard::{HandPosition, Shape, StringSet};

use super::super::circle::wrapped;
use super::super::neck_view::{Across, NeckView, ShownView};
use super::super::state::Explore;
use crate::tui::command::{Command, ExploreCommand};
use crate::tui::shared::Shared;

impl Explore {
    /// The view after this one, or before it; after the last comes the whole neck again.
    pub(super) fn step_view(&mut self, by: isize, shared: &Shared) {
        let position = self.shape_in_hand().map_or(HandPosition::FIRST, |shape| shape.position());
        let set = self.strings().map(NeckView::Set);
        let all = [
            Some(NeckView::Whole),
            Some(NeckView::Position(position)),
            set,
            Some(NeckView::Across(Across::default())),
            Some(NeckView::Two(0)),
        ];
        let all: Vec<NeckView> = all.into_iter().flatten().collect();
        let here = all.iter().position(|view| view.is_like(self.chosen.view)).unwrap_or_default();
        let next = all.get(wrapped(here, by, all.len())).copied();
        let home = self.home_in_hand();
        self.open_view(next.unwrap_or(NeckView::Whole), home.as_ref(), shared);
    }

    /// Opens a view where the hand is: a chain over its shape, the run nearest to it.
    fn open_view(&mut self, view: NeckView, home: Option<&Shape>, shared: &Shared) {
        let held = self.shown.hand.as_ref().map(|hand| (hand.home(), self.chosen.held));
        self.chosen.view = view;
        self.let_go(shared);
        self.view_near(home, shared);
        self.stand_again(held, shared);
    }

    /// The next choice of the view, or the one before.
    pub(super) fn step_choice(&mut self, by: isize, shared: &mut Shared) {
        let ways = self.shown.view.as_ref().map_or(0, ShownView::ways);
        if self.chosen.view.has_ways() && ways < 2 {
            shared.tell("this view has no other choice here");
        }
        let next = match self.chosen.view {
            NeckView::Whole => {
                let key = shared.key_of(Command::Explore(ExploreCommand::NextView));
                shared.notice = Some(format!("the whole neck has no choices: {key} takes a view"));
                NeckView::Whole
            }
            NeckView::Position(position) => {
                let lowest = usize::from(HandPosition::lowest_on(shared.neck()).number());
                let last = usize::from(shared.neck().tuning().last_fret().number());
                let here = usize::from(position.number()).saturating_sub(lowest);
                let at = wrapped(here, by, (last + 1).saturating_sub(lowest)) + lowest;
                let at = u8::try_from(at).ok().and_then(HandPosition::new);
                NeckView::Position(at.unwrap_or(position))
            }
            NeckView::Set(set) => {
                let sets = self.sets_to_look_at(shared);
                let at = sets.iter().position(|one| *one == set).unwrap_or_default();
                NeckView::Set(sets.get(wrapped(at, by, sets.len())).copied().unwrap_or(set))
            }
            NeckView::Across(chain) => {
                NeckView::Across(Across { way: wrapped(chain.way, by, ways), ..chain })
            }
            NeckView::Two(start) => NeckView::Two(wrapped(start, by, ways)),
        };
        self.look_at(next, shared);
    }

    /// Takes another choice of the view; three strings become those in use.
    fn look_at(&mut self, view: NeckView, shared: &Shared) {
        let held = self.shown.hand.as_ref().map(|hand| (hand.home(), self.chosen.held));
        self.chosen.view = view;
        if let NeckView::Set(set) = view {
            let there = self.shown.sets.iter().position(|one| *one == set);
            self.chosen.set = there.unwrap_or(self.chosen.set);
        }
        self.stand_again(held, shared);
    }

    /// Three, two and single strings, from the floor up.
    fn sets_to_look_at(&self, shared: &Shared) -> Vec<StringSet> {
        let count = shared.neck().tuning().string_count();
        [3, 2, 1].into_iter().flat_map(|size| StringSet::neighbours(count, size)).collect()
    }
}
