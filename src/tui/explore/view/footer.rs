//! The footer: the keys that matter now and, in a list, where one is. Who points at it asks here.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::{Explore, Over};
use super::line::{below, write};
use crate::tui::command::{COMMANDS, Command, CommandRow};
use crate::tui::key::Key;

/// Columns between two entries.
const GAP: u16 = 2;

/// A key in the footer, with its word.
struct Entry {
    key: Key,
    words: Line<'static>,
    area: Rect,
}

impl Explore {
    /// The keys that matter now, as many as fit.
    pub(super) fn draw_footer(&self, area: Rect, buffer: &mut Buffer) {
        if area.is_empty() {
            return;
        }
        buffer.set_string(area.x, area.y, " ".repeat(usize::from(area.width)), Style::default());
        for entry in self.entries(area) {
            write(buffer, entry.area, &entry.words);
        }
    }

    /// The footer of a list: its keys at the left, where one is in it at the right.
    pub(super) fn draw_list_footer(&self, screen: Rect, buffer: &mut Buffer) {
        let place = self.place_in_list(screen);
        let [keys, right] = list_footer(screen, &place);
        self.draw_footer(keys, buffer);
        write(buffer, right, &Line::styled(place, self.theme.muted));
    }

    /// The key that the footer names at a place of the screen.
    pub(in crate::tui::explore) fn key_at(&self, screen: Rect, place: Position) -> Option<Key> {
        let entries = self.entries(self.footer_area(screen));
        entries.into_iter().find(|entry| entry.area.contains(place)).map(|entry| entry.key)
    }

    /// Where the keys of the footer lie; no cell where none is drawn.
    fn footer_area(&self, screen: Rect) -> Rect {
        if self.over.is_list() {
            let [keys, _] = list_footer(screen, &self.place_in_list(screen));
            return keys;
        }
        self.places_to_point_at(screen).map_or(Rect::ZERO, |[.., footer]| footer)
    }

    /// The keys that fit into an area, each where it lies.
    fn entries(&self, area: Rect) -> Vec<Entry> {
        let mut entries = Vec::new();
        let mut column = 1_u16;
        for row in COMMANDS.iter().filter(|row| self.matters(row)) {
            let Some(key) = self.keys.of(row).first() else { continue };
            let words = self.entry_words(row, *key);
            let width = words.width() as u16;
            if column.saturating_add(width) > area.width {
                break;
            }
            let at = Rect { x: area.x + column, width, height: area.height.min(1), ..area };
            entries.push(Entry { key: *key, words, area: at });
            column += width + GAP;
        }
        entries
    }

    /// `c chord`
    fn entry_words(&self, row: &CommandRow, key: Key) -> Line<'static> {
        Line::from(vec![
            Span::styled(key.label(self.glyphs()), self.theme.key),
            Span::styled(format!(" {}", row.label), self.theme.muted),
        ])
    }

    /// Does a command belong in the footer now?
    fn matters(&self, row: &CommandRow) -> bool {
        let there = row.section.is_heard_with(self.over.section());
        let idle = match row.command {
            Command::Accept => matches!(self.over, Over::Help(_)),
            Command::Suggestion => matches!(self.over, Over::Wish(_)),
            _ => false,
        };
        there && !row.label.is_empty() && !idle
    }

    /// Where one is in the list that is laid over the screen.
    fn place_in_list(&self, screen: Rect) -> String {
        match (&self.over, self.lines_over(screen)) {
            (Over::Help(finder), _) => self.place_in_help(screen, finder),
            (_, Some(lines)) if lines.count > 0 => {
                format!("{} of {} ", lines.marked + 1, lines.count)
            }
            _ => String::new(),
        }
    }
}

/// The last row of a list: what the keys have, and what the place in the list takes.
fn list_footer(screen: Rect, place: &str) -> [Rect; 2] {
    let footer = below(screen, screen.height.saturating_sub(1));
    let room = footer.width.saturating_sub(place.chars().count() as u16);
    let right = Rect { x: footer.x + room, width: footer.width - room, ..footer };
    [Rect { width: room, ..footer }, right]
}
