//! What is heard.

use fretloom_theory::TriadPair;

use super::state::{Listen, Question};
use crate::answer::EarMusic;
use crate::tui::sound::{Piece, What};

impl Listen {
    /// The pair that is to be named, over its chord.
    pub(super) fn piece(&self) -> Option<Piece> {
        let now = self.now()?;
        Some(now.piece(now.asked.question.heard()?.pair()))
    }

    /// The pair that was named, if that was another one.
    pub(super) fn piece_of_answer(&self) -> Option<Piece> {
        let now = self.now()?;
        let mistaken = now.asked.question.mistaken(self.answered?)?;
        Some(now.piece(mistaken.said.pair.pair()))
    }
}

impl Question {
    fn piece(&self, pair: TriadPair) -> Piece {
        let tuning = self.neck.tuning().clone();
        let music = EarMusic::new(&self.asked.question.harmony, pair, &tuning);
        Piece::new(What::Ear, move |style| Some(music.performance(&tuning, style)))
    }
}
