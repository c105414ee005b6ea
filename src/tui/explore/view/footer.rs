//! The footer: the keys that matter now and, in a list, where one is. Who points at it asks here.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::text::Line;

use super::super::{Explore, Over};
use crate::tui::command::{COMMANDS, Command, CommandRow};
use crate::tui::key::Key;
use crate::tui::widget::{Footer, ListView, list_footer, write};

impl Explore {
    /// The keys that matter now.
    pub(super) fn footer(&self) -> Footer<'_> {
        let rows = COMMANDS.iter().filter(|row| self.matters(row));
        let entries = rows.filter_map(|row| Some((*self.keys.of(row).first()?, row.label)));
        Footer::new(entries, &self.theme, self.glyphs())
    }

    /// The footer of a list: its keys at the left, where one is in it at the right.
    pub(super) fn draw_list_footer(&self, screen: Rect, buffer: &mut Buffer) {
        let place = self.place_in_list(screen);
        let [keys, right] = list_footer(screen, &place);
        self.footer().draw(keys, buffer);
        write(buffer, right, &Line::styled(place, self.theme.muted));
    }

    /// The key that the footer names at a place of the screen.
    pub(in crate::tui::explore) fn key_at(&self, screen: Rect, place: Position) -> Option<Key> {
        self.footer().key_at(self.footer_area(screen), place)
    }

    /// Where the keys of the footer lie; no cell where none is drawn.
    fn footer_area(&self, screen: Rect) -> Rect {
        if self.over.is_list() {
            let [keys, _] = list_footer(screen, &self.place_in_list(screen));
            return keys;
        }
        self.places_to_point_at(screen).map_or(Rect::ZERO, |[.., footer]| footer)
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
        match &self.over {
            Over::Help(search) => self.place_in_help(screen, search),
            _ => self.lines_over(screen).as_ref().map(ListView::place_in_words).unwrap_or_default(),
        }
    }
}
