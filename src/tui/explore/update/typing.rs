//! What is typed: a chord, wishes, where the hand may be, a search.

use super::super::chosen::TypedChord;
use super::super::overlay::Overlay;
use super::super::state::Explore;
use super::super::suggest::suggestions;
use crate::answer::{HandArea, Wishes};
use crate::tui::command::TypingCommand;
use crate::tui::key::Key;
use crate::tui::shared::Shared;
use crate::tui::widget::TextField;

impl Explore {
    pub(super) fn edit_chord(&mut self) {
        let field = TextField::holding(&self.chosen.chord.symbol);
        self.overlay = Some(Overlay::Chord(field));
    }

    pub(super) fn edit_wishes(&mut self) {
        let field = TextField::holding(&self.chosen.wishes.to_string());
        self.overlay = Some(Overlay::Wishes(field));
    }

    pub(super) fn edit_where(&mut self) {
        let field = TextField::holding(&self.hand_area().to_string());
        self.overlay = Some(Overlay::Where(field));
    }

    /// Types a key that stands for no command, where something is typed.
    pub(in crate::tui) fn type_key(&mut self, key: Key, shared: &Shared) {
        let pair = self.shown.pair(&self.chosen);
        match &mut self.overlay {
            Some(Overlay::Chord(field) | Overlay::Wishes(field) | Overlay::Where(field)) => {
                field.press(key);
            }
            Some(Overlay::Tunings(list)) => list.press(key, pair, shared),
            Some(Overlay::Scales(_) | Overlay::Details(_)) | None => {}
        }
    }

    /// Types a pasted text, where something is typed.
    pub(in crate::tui) fn paste(&mut self, text: &str, shared: &Shared) {
        let pair = self.shown.pair(&self.chosen);
        match &mut self.overlay {
            Some(Overlay::Chord(field) | Overlay::Wishes(field) | Overlay::Where(field)) => {
                field.insert(text);
            }
            Some(Overlay::Tunings(list)) => list.insert(text, pair, shared),
            Some(Overlay::Scales(_) | Overlay::Details(_)) | None => {}
        }
    }

    pub(super) fn obey_in_field(&mut self, command: TypingCommand, shared: &Shared) {
        match command {
            TypingCommand::Suggestion => self.take_suggestion(),
            TypingCommand::Accept => self.accept_field(shared),
            TypingCommand::Cancel => self.overlay = None,
        }
    }

    /// Types the first chord that is offered; it can be typed on.
    fn take_suggestion(&mut self) {
        let Some(Overlay::Chord(field)) = &mut self.overlay else { return };
        let typed = field.text();
        if let Some(chord) = suggestions(&typed).next() {
            field.go_to_end();
            field.insert(chord.get(typed.len()..).unwrap_or_default());
        }
    }

    /// Takes what is typed. What cannot be read stays in the field, which says why.
    fn accept_field(&mut self, shared: &Shared) {
        match &self.overlay {
            Some(Overlay::Chord(field)) => {
                let Ok(read) = field.text().parse() else { return };
                let chord = TypedChord::new(&field.text(), read);
                self.overlay = None;
                self.settle();
                self.take_chord(chord, shared);
                self.settle();
            }
            Some(Overlay::Wishes(field)) => {
                let Ok(wishes) = Wishes::read_line(&field.text()) else { return };
                self.overlay = None;
                self.take_wishes(wishes, shared);
            }
            Some(Overlay::Where(field)) => {
                let Ok(area) = HandArea::read_line(&field.text()) else { return };
                if area.check(shared.neck()).is_ok() {
                    self.overlay = None;
                    self.take_area(area, shared);
                }
            }
            Some(Overlay::Tunings(_) | Overlay::Scales(_) | Overlay::Details(_)) | None => {}
        }
    }
}
