//! The last row of a screen: the keys that matter now. Who points at it asks here.

use std::borrow::Cow;

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::line::{below, write};
use crate::tui::key::{Glyphs, Key};
use crate::tui::theme::Theme;

/// Columns between two entries.
const GAP: u16 = 2;

/// Some keys, each with a word for what it does.
pub(in crate::tui) struct Footer<'a> {
    entries: Vec<(Key, Cow<'static, str>)>,
    theme: &'a Theme,
    glyphs: Glyphs,
}

impl<'a> Footer<'a> {
    /// These keys with their words, the one that matters most first.
    pub(in crate::tui) fn new(
        entries: impl IntoIterator<Item = (Key, Cow<'static, str>)>,
        theme: &'a Theme,
        glyphs: Glyphs,
    ) -> Footer<'a> {
        Footer { entries: entries.into_iter().collect(), theme, glyphs }
    }

    /// Draws as many entries as fit.
    pub(in crate::tui) fn draw(&self, area: Rect, buffer: &mut Buffer) {
        if area.is_empty() {
            return;
        }
        buffer.set_string(area.x, area.y, " ".repeat(usize::from(area.width)), Style::default());
        for (_, words, at) in self.laid_out(area) {
            write(buffer, at, &words);
        }
    }

    /// The key that is named at a place of the screen.
    pub(in crate::tui) fn key_at(&self, area: Rect, place: Position) -> Option<Key> {
        self.laid_out(area).find(|(_, _, at)| at.contains(place)).map(|(key, ..)| key)
    }

    /// The entries that fit into an area, each where it lies.
    fn laid_out(&self, area: Rect) -> impl Iterator<Item = (Key, Line<'static>, Rect)> {
        let mut column = 1_u16;
        self.entries.iter().map_while(move |(key, word)| {
            let words = self.words(*key, word);
            let width = words.width() as u16;
            if column.saturating_add(width) > area.width {
                return None;
            }
            let at = Rect { x: area.x + column, width, height: area.height.min(1), ..area };
            column += width + GAP;
            Some((*key, words, at))
        })
    }

    /// `c chord`
    fn words(&self, key: Key, word: &str) -> Line<'static> {
        Line::from(vec![
            Span::styled(key.label(self.glyphs), self.theme.key),
            Span::styled(format!(" {word}"), self.theme.muted),
        ])
    }
}

/// The last row of a list that takes the whole screen: what its keys have at the left, and what
/// the words about the place in the list take at the right.
pub(in crate::tui) fn list_footer(screen: Rect, place: &str) -> [Rect; 2] {
    let footer = below(screen, screen.height.saturating_sub(1));
    let room = footer.width.saturating_sub(place.chars().count() as u16);
    let right = Rect { x: footer.x + room, width: footer.width - room, ..footer };
    [Rect { width: room, ..footer }, right]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::text_of;

    fn entries() -> [(Key, Cow<'static, str>); 3] {
        [("?", "help"), ("left", "before"), ("q", "quit")]
            .map(|(key, word)| (key.parse().unwrap(), word.into()))
    }

    fn drawn(columns: u16, rows: u16) -> Buffer {
        let (area, theme) = (Rect::new(0, 0, columns, rows), Theme::monochrome());
        let mut buffer = Buffer::filled(area, ratatui::buffer::Cell::new("#"));
        Footer::new(entries(), &theme, Glyphs::Unicode).draw(area, &mut buffer);
        buffer
    }

    #[test]
    fn as_many_keys_as_fit_are_drawn() {
        assert_eq!(drawn(0, 0), Buffer::empty(Rect::ZERO));
        assert_eq!(text_of(&drawn(1, 1)), "\n");
        assert_eq!(text_of(&drawn(7, 1)), " ? help\n");
        assert_eq!(text_of(&drawn(17, 1)), " ? help  ← before\n");
        assert_eq!(text_of(&drawn(80, 1)), " ? help  ← before  q quit\n");
    }

    /// Key and word differ by style; without room nothing is left of the row before.
    #[test]
    fn every_cell_of_it_is_drawn() {
        let theme = Theme::monochrome();
        let mut expected = Buffer::with_lines([" ? help  "]);
        expected.set_style(Rect::new(1, 0, 1, 1), theme.key);
        expected.set_style(Rect::new(2, 0, 5, 1), theme.muted);
        assert_eq!(drawn(9, 1), expected);
    }

    #[test]
    fn a_key_is_found_where_it_is_drawn() {
        let theme = Theme::monochrome();
        let footer = Footer::new(entries(), &theme, Glyphs::Unicode);
        let area = Rect::new(3, 5, 17, 1);
        let at = |column, row| {
            let key = footer.key_at(area, Position::new(column, row));
            key.map(|key| key.to_string()).unwrap_or_default()
        };
        assert_eq!([at(3, 5), at(4, 5), at(9, 5), at(10, 5), at(4, 6)], ["", "?", "?", "", ""]);
        assert_eq!([at(12, 5), at(19, 5), at(20, 5)], ["left", "left", ""]);
    }
}
