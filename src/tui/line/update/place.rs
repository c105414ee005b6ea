//! Where on the neck the line lies, and how it is fingered there.

use fretloom_fretboard::HandPosition;

use super::super::cycles::{Way, others, string_sets, views};
use super::super::state::LineScreen;
use crate::tui::line_place::{LinePlace, LineView};
use crate::tui::shared::Shared;

impl LineScreen {
    pub(super) fn step_strings(&mut self, way: Way, shared: &mut Shared) {
        let sets = string_sets(shared.neck());
        let values = others(&sets, &self.chosen.place.strings, way);
        let put = |chosen: &mut super::super::chosen::Chosen, strings| {
            chosen.place.strings = strings;
            if let LineView::Across(..) = chosen.place.view {
                chosen.place.view = LineView::Anywhere;
            }
        };
        self.take_first(values, put, shared);
    }

    pub(super) fn step_view(&mut self, way: Way, shared: &mut Shared) {
        let place = self.chosen.place;
        let all = views(place, LineView::Position(self.position()));
        let is_like = |one: &LinePlace| {
            std::mem::discriminant(&one.view) == std::mem::discriminant(&place.view)
        };
        let now = all.iter().find(|one| is_like(one)).copied().unwrap_or(place);
        let values = others(&all, &now, way);
        self.take_first(values, |chosen, place| chosen.place = place, shared);
    }

    /// Where the hand is at the cursor.
    fn position(&self) -> HandPosition {
        let way = self.made().and_then(|made| made.way());
        let here = way.and_then(|way| way.way.notes.get(self.cursor));
        here.map_or(HandPosition::FIRST, |at| at.position)
    }

    /// The next position, chain or run.
    pub(super) fn step_choice(&mut self, way: Way, shared: &mut Shared) {
        let views: Vec<LineView> = match self.chosen.place.view {
            LineView::Anywhere => {
                shared.tell("all of it is in view; another view has choices");
                return;
            }
            LineView::Position(now) => {
                let last = shared.neck().tuning().last_fret().number();
                let all: Vec<LineView> =
                    (1..=last).filter_map(HandPosition::new).map(LineView::Position).collect();
                others(&all, &LineView::Position(now), way)
            }
            LineView::Across(through, now) => {
                ways(now, way).into_iter().map(|way| LineView::Across(through, way)).collect()
            }
            LineView::Two(now) => ways(now, way).into_iter().map(LineView::Two).collect(),
        };
        self.take_first(views, |chosen, view| chosen.place.view = view, shared);
    }

    /// Another of the ways to finger the line, with its reason.
    pub(super) fn step_way(&mut self, way: Way, shared: &mut Shared) {
        let Some(made) = self.made() else { return };
        let all: Vec<usize> = (0..made.answer.ways.len()).collect();
        let Some(next) = others(&all, &made.way, way).first().copied() else {
            shared.tell("there is no other way to finger it here");
            return;
        };
        if self.take_first(vec![next], |chosen, way| chosen.way = way, shared) {
            shared.notice = self.way_in_words();
        }
    }

    /// `way 2 of 5: stays in position V`.
    pub(in crate::tui::line) fn way_in_words(&self) -> Option<String> {
        let made = self.made()?;
        let why = &made.way()?.way.fingering;
        Some(format!("way {} of {}: {why}", made.way + 1, made.answer.ways.len()))
    }
}

/// The next of several ways of which nobody has counted how many there are: after the last the first.
fn ways(now: usize, way: Way) -> Vec<usize> {
    match way {
        Way::Next => vec![now + 1, 0],
        Way::Before => now.checked_sub(1).into_iter().collect(),
    }
}
