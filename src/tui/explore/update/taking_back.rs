//! Taking changes back, and turning to the chords before and after.

use super::super::Explore;
use super::super::chosen::{Chosen, Page};
use crate::answer::{NamedPair, PairAnswer};
use crate::words::counted;

impl Explore {
    /// Takes the last change back.
    pub(super) fn undo(&mut self) {
        let Some(before) = self.past.back(self.chosen.clone()) else {
            self.notice = Some("nothing to take back".to_owned());
            return;
        };
        self.choose_again(before);
        self.notice = Some(format!("taken back · {} before it", self.past.before()));
    }

    /// Makes again what was taken back last.
    pub(super) fn redo(&mut self) {
        let Some(after) = self.past.forward(self.chosen.clone()) else {
            self.notice = Some("nothing was taken back".to_owned());
            return;
        };
        self.choose_again(after);
        self.notice = Some(format!("made again · {} after it", self.past.after()));
    }

    fn choose_again(&mut self, chosen: Chosen) {
        self.chosen = chosen;
        self.follow();
    }

    /// The chord of the moment.
    pub(super) fn page(&self) -> Page {
        Page {
            chord: self.chosen.chord.clone(),
            scale: self.chosen.scale,
            pair: self.pair().map(PairAnswer::name),
        }
    }

    /// Back to the chord before, with the scale and the pair that it had.
    pub(super) fn page_back(&mut self) {
        let now = self.page();
        match self.pages.back(now) {
            Some(page) => self.turn_to_page(page),
            None => self.notice = Some("this is the first chord".to_owned()),
        }
    }

    /// Forward again to the chord that was left by going back.
    pub(super) fn page_forward(&mut self) {
        let now = self.page();
        match self.pages.forward(now) {
            Some(page) => self.turn_to_page(page),
            None => self.notice = Some("this is the last chord".to_owned()),
        }
    }

    fn turn_to_page(&mut self, page: Page) {
        (self.chosen.chord, self.chosen.scale) = (page.chord, page.scale);
        self.lay_out();
        if let Some(pair) = page.pair {
            self.choose_pair(|name| name == pair);
        }
        let (before, after) = (self.pages.before(), self.pages.after());
        self.notice =
            Some(format!("{} before this one, {after} after it", counted(before, "chord")));
    }

    /// Chooses the pair whose name is the wanted one where the list has it, else the first one.
    pub(in crate::tui::explore) fn choose_pair(&mut self, wanted: impl Fn(NamedPair) -> bool) {
        let pairs = &self.shown.pairs;
        let is_it = |index: &usize| pairs.pairs.get(*index).is_some_and(|pair| wanted(pair.name()));
        let place = pairs.folds.iter().enumerate().find_map(|(row, fold)| {
            let copies = fold.copies.iter().map(|(index, _)| *index);
            let copy = std::iter::once(fold.first).chain(copies).position(|index| is_it(&index))?;
            Some((row, copy))
        });
        (self.chosen.row, self.chosen.copy) = place.unwrap_or_default();
        self.lay_out();
    }
}
