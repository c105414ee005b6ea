//! What all screens share, as it is kept for the next start, and taken up again.

use fretloom_theory::Spelling;

use super::state::Shared;
use crate::glyphs::to_ascii;
use crate::picture::{Handed, Top};
use crate::store::Session;

impl Shared {
    /// Writes what is set up into a session.
    pub(in crate::tui) fn keep(&self, session: &mut Session) {
        let tuning = &self.setup.tuning;
        let name = if self.is_known(tuning) { tuning.id().to_owned() } else { tuning.to_string() };
        session.tuning = Some(to_ascii(&name));
        session.capo = Some(tuning.capo().fret().number());
        session.capo_strings = self.setup.capo_strings.map(|set| set.to_string());
        session.spelling = Some(word_of(self.setup.spelling).to_owned());
        session.left_handed = Some(self.setup.handed == Handed::Left);
        session.upside_down = Some(self.setup.top == Top::Last);
        session.fret_widths = Some(self.setup.fret_widths.word().to_owned());
        self.sound.keep(session);
    }

    /// Takes up how necks and notes are written. The instrument is not taken up here: a screen has
    /// to bring the hand along.
    pub(in crate::tui) fn take_up(&mut self, session: &Session) {
        let spellings = [Spelling::Plain, Spelling::Strict];
        let spelling = spellings.iter().find(|s| Some(word_of(**s)) == session.spelling.as_deref());
        self.setup.spelling = spelling.copied().unwrap_or(self.setup.spelling);
        if let Some(left) = session.left_handed {
            self.setup.handed = if left { Handed::Left } else { Handed::Right };
        }
        if let Some(down) = session.upside_down {
            self.setup.top = if down { Top::Last } else { Top::First };
        }
        let widths = session.fret_widths.as_deref().and_then(|word| word.parse().ok());
        self.setup.fret_widths = widths.unwrap_or(self.setup.fret_widths);
        self.sound.take_up(session);
    }
}

fn word_of(spelling: Spelling) -> &'static str {
    match spelling {
        Spelling::Plain => "plain",
        Spelling::Strict => "strict",
    }
}
