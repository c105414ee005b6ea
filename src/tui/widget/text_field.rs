//! The field in which a line of text is typed.

use std::ops::Range;

use ratatui::text::{Line, Span};

use crate::glyphs::is_harmful;
use crate::tui::key::{Key, KeyCode};
use crate::tui::theme::Theme;

/// A line of text with a cursor. Longer input than any chord symbol is not taken.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(in crate::tui) struct TextField {
    text: Vec<char>,
    cursor: usize,
    /// How many signs it takes at most.
    longest: usize,
    /// Nothing has been typed yet: the first letter replaces the old text.
    fresh: bool,
}

impl TextField {
    /// As long as the longest symbol that is read.
    const LONGEST: usize = 80;

    /// A field that holds `text`, all of it to be replaced by the first letter typed.
    pub(in crate::tui) fn holding(text: &str) -> TextField {
        TextField::holding_up_to(text, TextField::LONGEST)
    }

    /// The same for texts of so many signs at most; a longer one that is there already stays whole.
    pub(in crate::tui) fn holding_up_to(text: &str, longest: usize) -> TextField {
        let text: Vec<char> = text.chars().collect();
        TextField { cursor: text.len(), longest: longest.max(text.len()), text, fresh: true }
    }

    /// What is typed so far.
    pub(in crate::tui) fn text(&self) -> String {
        self.text.iter().collect()
    }

    /// The label and the text, with the cursor in it; what the first letter would replace is muted.
    pub(in crate::tui) fn line(&self, label: &str, theme: &Theme) -> Line<'static> {
        self.line_from(0, label, theme)
    }

    /// The same within so many columns: of a longer text the part that ends with the cursor.
    pub(in crate::tui) fn line_within(
        &self,
        label: &str,
        theme: &Theme,
        width: u16,
    ) -> Line<'static> {
        let room = usize::from(width).saturating_sub(label.chars().count() + 1);
        self.line_from(self.cursor.saturating_sub(room), label, theme)
    }

    fn line_from(&self, first: usize, label: &str, theme: &Theme) -> Line<'static> {
        let part = |range: Range<usize>| -> String {
            self.text.get(range).unwrap_or_default().iter().collect()
        };
        let (cursor, end) = (self.cursor, self.text.len());
        let under = self.text.get(cursor).copied().unwrap_or(' ');
        let text = if self.fresh { theme.muted } else { theme.text };
        Line::from(vec![
            Span::styled(label.to_owned(), theme.title),
            Span::styled(part(first..cursor), text),
            Span::styled(under.to_string(), theme.held),
            Span::styled(part((cursor + 1).min(end)..end), text),
        ])
    }

    /// Takes what is printable of a text, as if it had been typed.
    pub(in crate::tui) fn insert(&mut self, text: &str) {
        if self.fresh {
            self.text.clear();
            self.cursor = 0;
        }
        self.fresh = false;
        for char in text.chars().filter(|char| *char != '\n' && !is_harmful(*char)) {
            if self.text.len() < self.longest {
                self.text.insert(self.cursor, char);
                self.cursor += 1;
            }
        }
    }

    /// Puts the cursor behind the text, which stays.
    pub(in crate::tui) fn go_to_end(&mut self) {
        self.fresh = false;
        self.cursor = self.text.len();
    }

    /// Types or edits; keys that mean nothing in a line are ignored.
    pub(in crate::tui) fn press(&mut self, key: Key) {
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
        let mut field = TextField::holding("Am7");
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
        let mut field = TextField::holding("");
        field.insert("C7\u{1b}[31m\n");
        assert_eq!(field.text(), "C7[31m");
        field.insert(&"x".repeat(1000));
        assert_eq!(field.text().chars().count(), TextField::LONGEST);
    }

    #[test]
    fn the_cursor_lies_over_the_sign_that_it_is_before() {
        let theme = Theme::monochrome();
        let mut field = TextField::holding("Am7");
        let spans = |field: &TextField| {
            let line = field.line(" chord ", &theme);
            line.spans.iter().map(|span| (span.content.to_string(), span.style)).collect::<Vec<_>>()
        };
        let span = |text: &str, style| (text.to_owned(), style);
        let label = span(" chord ", theme.title);
        let (cursor, end) = (span(" ", theme.held), span("", theme.muted));
        assert_eq!(spans(&field), [label.clone(), span("Am7", theme.muted), cursor, end]);
        field.press("home".parse().unwrap());
        let (before, under) = (span("", theme.text), span("A", theme.held));
        assert_eq!(spans(&field), [label, before, under, span("m7", theme.text)]);
    }
}
