//! What is copied: the tablature as text.

use super::state::LineScreen;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

impl LineScreen {
    /// Copies the tablature with all that stands around it, or says that there is none.
    pub(super) fn copy_tab(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let Some(made) = self.made() else {
            shared.tell("there is no line to copy");
            return Vec::new();
        };
        vec![ScreenEffect::Copy { what: "the tablature", text: self.tab_text(made) }]
    }

    /// The key, where it is another one than that of the chords as they were typed.
    pub(super) fn key_in_words(&self) -> Option<String> {
        let key = self.made()?.answer.question.chords.key().filter(|_| self.chosen.key > 0)?;
        Some(key.to_string())
    }

    /// `Dm7 | G7 | Cmaj7 in F · B♭ & C · 1232 321 a`
    pub(super) fn title(&self) -> String {
        let phrase = self.made().and_then(|made| made.pair_phrase(0));
        let words = phrase.map(|phrase| format!(" · {} · {}", phrase.pair, phrase.pattern));
        let key = self.key_in_words().map(|key| format!(" in {key}")).unwrap_or_default();
        format!("{}{key}{}", self.chosen.chords, words.unwrap_or_default())
    }
}
