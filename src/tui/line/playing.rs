//! Playing the line, and the cursor that follows what is heard.

use fretloom_theory::Quarters;

use super::state::LineScreen;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::sound::{Piece, What};

impl LineScreen {
    /// Plays the line from its beginning, or ends it.
    pub(super) fn play_or_stop(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        if shared.sound.what().is_some() {
            return vec![ScreenEffect::StopPlaying];
        }
        match self.piece() {
            Some(piece) => vec![ScreenEffect::Play(piece)],
            None => {
                shared.tell("there is no line to play");
                Vec::new()
            }
        }
    }

    /// The line as it is to be heard.
    pub(in crate::tui) fn piece(&self) -> Option<Piece> {
        let made = self.made()?;
        let (answer, way) = (made.answer.clone(), made.way);
        Some(Piece::new(What::Line, move |style| answer.performance(way, style)))
    }

    /// Goes to the note that is heard at a moment: the last one that has begun.
    pub(in crate::tui) fn follow(&mut self, moment: Quarters) {
        let begun = self.notes().iter().take_while(|told| told.note.onset <= moment).count();
        self.cursor = begun.saturating_sub(1);
    }

    /// Which note the cursor is at.
    pub(in crate::tui) fn cursor(&self) -> usize {
        self.cursor
    }
}
