//! Going through the views of the neck and the choices of each.

use fretloom_fretboard::{HandPosition, StringSet};

use super::super::circle::wrapped;
use super::super::neck_view::{NeckView, ShownView};
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
            Some(NeckView::Across(0)),
            Some(NeckView::Two(0)),
        ];
        let all: Vec<NeckView> = all.into_iter().flatten().collect();
        let here = all.iter().position(|view| view.is_like(self.chosen.view)).unwrap_or_default();
        let next = all.get(wrapped(here, by, all.len())).copied();
        self.look_at(next.unwrap_or(NeckView::Whole), shared);
    }

    /// The next choice of the view, or the one before.
    pub(super) fn step_choice(&mut self, by: isize, shared: &mut Shared) {
        let ways = self.shown.view.as_ref().map_or(0, ShownView::ways);
        let next = match self.chosen.view {
            NeckView::Whole => {
                let key = shared.key_of(Command::Explore(ExploreCommand::NextView));
                shared.notice = Some(format!("the whole neck has no choices: {key} takes a view"));
                NeckView::Whole
            }
            NeckView::Position(position) => {
                let last = usize::from(shared.neck().tuning().last_fret().number());
                let at = wrapped(usize::from(position.number()).saturating_sub(1), by, last) + 1;
                let at = u8::try_from(at).ok().and_then(HandPosition::new);
                NeckView::Position(at.unwrap_or(HandPosition::FIRST))
            }
            NeckView::Set(set) => {
                let sets = self.sets_to_look_at(shared);
                let at = sets.iter().position(|one| *one == set).unwrap_or_default();
                NeckView::Set(sets.get(wrapped(at, by, sets.len())).copied().unwrap_or(set))
            }
            NeckView::Across(chain) => NeckView::Across(wrapped(chain, by, ways)),
            NeckView::Two(start) => NeckView::Two(wrapped(start, by, ways)),
        };
        self.look_at(next, shared);
    }

    fn look_at(&mut self, view: NeckView, shared: &Shared) {
        self.chosen.view = view;
        self.follow(shared);
        self.chosen.view = self.view_shown();
        self.follow_hand(shared);
    }

    /// The view that is chosen; where it has fewer ways by now, in the last of them.
    pub(in crate::tui::explore) fn view_shown(&self) -> NeckView {
        let way = self.shown.view.as_ref().map(ShownView::way);
        way.map_or(self.chosen.view, |way| self.chosen.view.in_way(way))
    }

    /// Three, two and single strings, from the floor up.
    fn sets_to_look_at(&self, shared: &Shared) -> Vec<StringSet> {
        let count = shared.neck().tuning().string_count();
        [3, 2, 1].into_iter().flat_map(|size| StringSet::neighbours(count, size)).collect()
    }
}
