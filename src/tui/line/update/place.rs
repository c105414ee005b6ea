//! Where on the neck the line lies, and how it is fingered there.

use fretloom_fretboard::HandPosition;

use super::super::chosen::Chosen;
use super::super::cycles::{Way, others, string_sets, views};
use super::super::state::LineScreen;
use crate::tui::line_place::{LinePlace, LineView};
use crate::tui::shared::Shared;

impl LineScreen {
    pub(super) fn step_strings(&mut self, way: Way, shared: &mut Shared) {
        let place = self.place(shared);
        let view = match place.view {
            LineView::Across(..) => LineView::Anywhere,
            view => view,
        };
        let sets = others(&string_sets(shared.neck()), &place.strings, way);
        let values = sets.into_iter().map(|strings| LinePlace { view, strings, ..place });
        self.go_to_first(values.collect(), shared);
    }

    /// A phrase also has the place that it is in unasked among its views.
    pub(super) fn step_view(&mut self, way: Way, shared: &mut Shared) {
        let (place, unsaid) = (self.place(shared), self.place_unsaid(shared));
        let position = match place.view {
            LineView::Position(_) => place.view,
            LineView::Anywhere | LineView::Across(..) | LineView::Two(_) => {
                LineView::Position(self.position())
            }
        };
        let views = views(place, position).into_iter().filter(|view| Some(*view) != unsaid);
        let all: Vec<LinePlace> = unsaid.into_iter().chain(views).collect();
        let is_like = |one: &&LinePlace| {
            Some(**one) != unsaid
                && std::mem::discriminant(&one.view) == std::mem::discriminant(&place.view)
        };
        let like = all.iter().find(is_like).filter(|_| Some(place) != unsaid);
        let now = like.copied().unwrap_or(place);
        self.go_to_first(others(&all, &now, way), shared);
    }

    /// Where the phrase in hand is, if it is one of its own; else the line.
    pub(in crate::tui::line) fn place(&self, shared: &Shared) -> LinePlace {
        self.chosen.place_of(self.own(), shared.neck())
    }

    /// Where the phrase in hand would be if it did not say; none where it is not one of its own.
    pub(in crate::tui::line) fn place_unsaid(&self, shared: &Shared) -> Option<LinePlace> {
        self.own().map(|own| self.chosen.place_unsaid(own, shared.neck()))
    }

    /// Puts the phrase or the line in the first of several places where a line can be made, and says
    /// why not in those before it.
    fn go_to_first(&mut self, places: Vec<LinePlace>, shared: &mut Shared) {
        let (own, neck) = (self.own(), shared.neck().clone());
        let first = places.first().copied();
        let put = |chosen: &mut Chosen, place: LinePlace| chosen.put(own, place, &neck);
        let mut passed_over = None;
        for place in places {
            if self.take_first(vec![place], put, shared) {
                let told = passed_over.map(|reason| not_there(first, reason));
                shared.notice = told;
                return;
            }
            passed_over = passed_over.or(shared.notice.take());
        }
        shared.notice = passed_over;
    }

    /// Where the hand is at the cursor.
    fn position(&self) -> HandPosition {
        let way = self.made().and_then(|made| made.way());
        let here = way.and_then(|way| way.way.notes.get(self.cursor));
        here.map_or(HandPosition::FIRST, |at| at.position)
    }

    /// The next position, chain or run.
    pub(super) fn step_choice(&mut self, way: Way, shared: &mut Shared) {
        let place = self.place(shared);
        let views: Vec<LineView> = match place.view {
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
            // The chains over a shape are those of the line alone.
            LineView::Across(Some(_), _) if self.own().is_some() => {
                vec![LineView::Across(None, 0)]
            }
            LineView::Across(through, now) => {
                ways(now, way).into_iter().map(|way| LineView::Across(through, way)).collect()
            }
            LineView::Two(now) => ways(now, way).into_iter().map(LineView::Two).collect(),
        };
        let (own, neck) = (self.own(), shared.neck().clone());
        let put = |chosen: &mut Chosen, view| {
            chosen.put(own, LinePlace { view, ..place }, &neck);
        };
        self.take_first(views, put, shared);
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

/// `not on strings 3-2-1: ` and why.
fn not_there(place: Option<LinePlace>, reason: String) -> String {
    match place {
        Some(place) => format!("not {}: {reason}", place.in_short()),
        None => reason,
    }
}

/// The next of several ways of which nobody has counted how many there are: after the last the first.
fn ways(now: usize, way: Way) -> Vec<usize> {
    match way {
        Way::Next => vec![now + 1, 0],
        Way::Before => now.checked_sub(1).into_iter().collect(),
    }
}
