//! The field in which a chord is typed.

use crate::tui::key::{Key, KeyCode};

/// A line of text with a cursor. Longer input than any chord is not taken.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Field {
    text: Vec<char>,
    cursor: usize,
    /// Nothing has been typed yet: the first letter replaces the old chord.
    fresh: bool,
}

impl Field {
    /// As long as the longest symbol that is read.
    const LONGEST: usize = 80;

    /// A field that holds `text`, all of it to be replaced by the first letter typed.
    pub(super) fn holding(text: &str) -> Field {
        let text: Vec<char> = text.chars().take(Field::LONGEST).collect();
        Field { cursor: text.len(), text, fresh: true }
    }

    pub(super) fn text(&self) -> String {
        self.text.iter().collect()
    }

    pub(super) fn cursor(&self) -> usize {
        self.cursor
    }

    /// Would a letter typed now replace everything?
    pub(super) fn is_fresh(&self) -> bool {
        self.fresh
    }

    /// Takes what is printable of a text, as if it had been typed.
    pub(super) fn insert(&mut self, text: &str) {
        if self.fresh {
            self.text.clear();
            self.cursor = 0;
        }
        self.fresh = false;
        for char in text.chars().filter(|char| !char.is_control()) {
            if self.text.len() < Field::LONGEST {
                self.text.insert(self.cursor, char);
                self.cursor += 1;
            }
        }
    }

    /// Puts the cursor behind the text, which stays.
    pub(super) fn go_to_end(&mut self) {
        self.fresh = false;
        self.cursor = self.text.len();
    }

    /// Types or edits; keys that mean nothing in a line are ignored.
    pub(super) fn press(&mut self, key: Key) {
        if let Some(char) = key.typed() {
            self.insert(char.encode_utf8(&mut [0; 4]));
            return;
        }
        self.fresh = false;
        match key.code() {
            // As shells have it.
            KeyCode::Char('u') if key.modifiers().ctrl => {
                self.text.drain(..self.cursor);
                self.cursor = 0;
            }
            KeyCode::Char('w') if key.modifiers().ctrl => {
                let before = self.text.get(..self.cursor).unwrap_or_default();
                let word = before.iter().rposition(|char| *char != ' ').unwrap_or_default();
                let space = before.get(..word).unwrap_or_default().iter().rposition(|c| *c == ' ');
                let from = space.map_or(0, |space| space + 1);
                self.text.drain(from..self.cursor);
                self.cursor = from;
            }
            KeyCode::Backspace if self.cursor > 0 => {
                self.cursor -= 1;
                self.text.remove(self.cursor);
            }
            KeyCode::Delete if self.cursor < self.text.len() => {
                self.text.remove(self.cursor);
            }
            KeyCode::Left => self.cursor = self.cursor.saturating_sub(1),
            KeyCode::Right => self.cursor = (self.cursor + 1).min(self.text.len()),
            KeyCode::Home => self.cursor = 0,
            KeyCode::End => self.cursor = self.text.len(),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn after(keys: &str) -> String {
        let mut field = Field::holding("Am7");
        for key in keys.split(' ') {
            field.press(key.parse().unwrap());
        }
        field.text()
    }

    #[test]
    fn typing_replaces_the_old_chord_and_moving_first_edits_it() {
        assert_eq!(after("B b 7"), "Bb7");
        assert_eq!(after("end b 5"), "Am7b5");
        assert_eq!(after("backspace 9"), "Am9");
        assert_eq!(after("home delete C"), "Cm7");
        assert_eq!(after("left left right right right 1"), "Am71");
        assert_eq!(after("home backspace left"), "Am7");
        assert_eq!(after("end space B space space ctrl-w"), "Am7 ");
        assert_eq!(after("end ctrl-w ctrl-w x"), "x");
        assert_eq!(after("left ctrl-u"), "7");
    }

    #[test]
    fn a_paste_is_text_and_is_cut_to_the_longest() {
        let mut field = Field::holding("");
        field.insert("C7\u{1b}[31m\n");
        assert_eq!(field.text(), "C7[31m");
        field.insert(&"x".repeat(1000));
        assert_eq!(field.text().chars().count(), Field::LONGEST);
    }
}
