//! Playing the tune, and the bars and the neck that follow what is heard.

use std::sync::Arc;

use fretloom_theory::{Quarters, Tempo};

use super::comping::{Comped, Comping, refusal_in_words};
use super::state::ChangesScreen;
use crate::answer::CompedStab;
use crate::sound::Track;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::sound::{Piece, What};

impl ChangesScreen {
    /// Plays the tune from its beginning, or ends it.
    pub(super) fn play_or_stop(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        if shared.sound.what().is_some() {
            return vec![ScreenEffect::StopPlaying];
        }
        match self.piece(shared) {
            Some(piece) => vec![ScreenEffect::Play(piece)],
            None => {
                shared.tell("there is no plan to play yet");
                Vec::new()
            }
        }
    }

    /// The tune as it is to be heard: its pairs as stabs where the hand stays, over the chords.
    pub(in crate::tui) fn piece(&mut self, shared: &Shared) -> Option<Piece> {
        let comping = Arc::new(Comping::of(self.to_comp(shared)?));
        self.comping = Some(Arc::clone(&comping));
        Some(Piece::new(What::Changes, move |style| comping.performance(style)))
    }

    /// What is to be comped; none where there is no plan.
    pub(super) fn to_comp(&self, shared: &Shared) -> Option<Comped> {
        let first = self.plan()?.chords.first()?.hand;
        Some(Comped {
            answer: Arc::clone(self.plans.answer()?),
            plan: self.chosen.plan,
            area: self.chosen.area,
            first: first.map(|hand| hand.shape),
            ends: self.chosen.wishes.plan.ends,
            hand: shared.hand,
            tempo: self.chosen.chart()?.tempo.unwrap_or(Tempo::USUAL),
            tuning: shared.tuning().clone(),
        })
    }

    /// The stabs that are heard over the part of the bar in hand; none where none are heard.
    pub(super) fn stabs_heard(&self, shared: &Shared) -> Vec<&CompedStab> {
        let (Some(comping), Some(cell)) = (self.comping_heard(shared), self.cell()) else {
            return Vec::new();
        };
        let next = self.sheet.cells.get(self.cursor + 1).map(|next| next.from);
        let end = self.bar().and_then(|bar| bar.from.checked_add(bar.length));
        next.or(end).map_or_else(Vec::new, |until| comping.stabs(cell.from, until).collect())
    }

    /// Why no stabs are heard, where they are to be.
    pub(super) fn no_stabs_in_words(&self, shared: &Shared) -> Option<String> {
        Some(refusal_in_words(self.comping_heard(shared)?.refusal()?, shared))
    }

    /// What is comped while it is to be heard.
    fn comping_heard(&self, shared: &Shared) -> Option<&Comping> {
        let is_heard = shared.sound.what() == Some(What::Changes);
        let is_silent = shared.sound.is_silent(Track::Line);
        self.comping.as_deref().filter(|_| is_heard && !is_silent)
    }

    /// Goes to what is heard at a moment.
    pub(in crate::tui) fn follow(&mut self, moment: Quarters) {
        if let Some(cell) = self.sheet.at(moment) {
            self.cursor = cell;
        }
    }

    /// Which part of a bar the player is at.
    pub(in crate::tui) fn cursor(&self) -> usize {
        self.cursor
    }
}
