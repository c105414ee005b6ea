//! What is typed: chords, a pattern, a rhythm, targets, where the hand may be.

use super::super::chosen::{Chosen, OfChord};
use super::super::field::{Field, Typed, read_chords, read_pattern, read_targets};
use super::super::state::LineScreen;
use crate::answer::{HandArea, LineChords};
use crate::tui::command::TypingCommand;
use crate::tui::key::Key;
use crate::tui::line_place::LinePlace;
use crate::tui::shared::Shared;

impl LineScreen {
    pub(super) fn edit(&mut self, what: Typed) {
        self.field = Some(Field::new(what, &self.chosen));
    }

    /// Types a key that stands for no command, where something is typed.
    pub(in crate::tui) fn type_key(&mut self, key: Key) {
        if let Some(field) = &mut self.field {
            field.text.press(key);
        }
    }

    /// Types a pasted text, where something is typed. A chart of several lines is one line of bars.
    pub(in crate::tui) fn paste(&mut self, text: &str) {
        if let Some(field) = &mut self.field {
            field.text.insert(&text.trim_end().replace('\n', " | "));
        }
    }

    /// Does what a command means in the field that lies over the screen.
    pub(in crate::tui) fn update_field(&mut self, command: TypingCommand, shared: &mut Shared) {
        match command {
            TypingCommand::Suggestion => self.take_suggestion(shared),
            TypingCommand::Accept => self.accept(shared),
            TypingCommand::Cancel => self.field = None,
        }
    }

    /// Types the figures of the pattern that is offered; they can be typed on.
    fn take_suggestion(&mut self, shared: &Shared) {
        let Some(field) = &mut self.field else { return };
        if let Some(named) = field.suggestion(shared) {
            *field = Field::with(field.what, &named.figures.to_string());
            field.text.go_to_end();
        }
    }

    /// Takes what is typed. What cannot be read, or of which no line can be made, stays in the field.
    fn accept(&mut self, shared: &mut Shared) {
        let Some(field) = &self.field else { return };
        let (what, text) = (field.what, field.text.text());
        let mut chosen = self.chosen.clone();
        if !put(&mut chosen, what, &text, shared) {
            return;
        }
        if self.take(chosen, shared) {
            self.field = None;
        }
    }
}

/// Puts what was typed among the choices; false where it cannot be read.
fn put(chosen: &mut Chosen, what: Typed, text: &str, shared: &Shared) -> bool {
    let is_empty = text.trim().is_empty();
    match what {
        Typed::Chords => match read_chords(text, chosen, shared) {
            Ok(chords) => put_chords(chosen, text, &chords),
            Err(_) => return false,
        },
        Typed::Pattern if is_empty => chosen.pattern = None,
        Typed::Pattern => match read_pattern(text, shared) {
            Ok(pattern) => chosen.pattern = Some(pattern),
            Err(_) => return false,
        },
        Typed::Rhythm if is_empty => chosen.rhythm = None,
        Typed::Rhythm => match text.parse() {
            Ok(rhythm) => chosen.rhythm = Some(rhythm),
            Err(_) => return false,
        },
        Typed::Targets => match read_targets(text) {
            Ok(targets) => chosen.targets = targets,
            Err(_) => return false,
        },
        Typed::Where => match HandArea::read_line(text) {
            Ok(area) if area.check(shared.neck()).is_ok() => {
                chosen.place = LinePlace::of_hand_area(area);
            }
            Ok(_) | Err(_) => return false,
        },
    }
    true
}

/// Other chords. What was chosen for a chord stays with it; changes of single notes do not.
fn put_chords(chosen: &mut Chosen, text: &str, chords: &LineChords) {
    let mut each: Vec<OfChord> = Vec::new();
    for chord in chords.chords() {
        let symbol = chord.over.chord().map(|chord| format!("{chord:#}")).unwrap_or_default();
        if chord.written >= each.len() {
            each.resize(chord.written, OfChord::default());
            let before = chosen.each.iter().find(|before| before.symbol == symbol).cloned();
            each.push(before.unwrap_or(OfChord { symbol, ..OfChord::default() }));
        }
    }
    if chosen.chords != text.trim() {
        chosen.edits.clear();
    }
    (chosen.chords, chosen.each) = (text.trim().to_owned(), each);
    (chosen.bars, chosen.key) = (None, 0);
}
