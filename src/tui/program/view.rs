//! Drawing the program on any number of cells.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::Line;

use super::overlay::Overlay;
use super::state::Program;
use crate::glyphs::make_ascii;
use crate::tui::command::{Command, ListCommand, Section};
use crate::tui::key::{Glyphs, Key};
use crate::tui::widget::{Footer, ListView, list_footer, write};

impl Program {
    /// Draws the state; every size is a valid one.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer) {
        let area = area.intersection(buffer.area);
        if area.is_empty() {
            return;
        }
        // Setting an empty style changes no cell, and takes as long as setting one that does.
        if self.shared.theme.screen != Style::new() {
            buffer.set_style(area, self.shared.theme.screen);
        }
        match &self.overlay {
            Some(Overlay::Help(search)) => self.draw_help(area, buffer, search),
            Some(Overlay::Palette(search)) => self.draw_palette(area, buffer, search),
            Some(Overlay::Sound(_)) => self.draw_sound(area, buffer),
            None => self.screens.draw(area, buffer, &self.shared),
        }
        match self.shared.glyphs {
            Glyphs::Unicode => {}
            Glyphs::Ascii => make_ascii(buffer),
        }
    }

    /// The footer of what the program has laid over a screen: its keys at the left, where one is in
    /// it at the right.
    pub(super) fn draw_list_footer(&self, area: Rect, buffer: &mut Buffer, overlay: &Overlay) {
        let place = self.place_in_words(area, overlay);
        let [keys, right] = list_footer(area, &place);
        self.footer(overlay).draw(keys, buffer);
        write(buffer, right, &Line::styled(place, self.shared.theme.muted));
    }

    /// The key that this footer names at a place of the window.
    pub(super) fn key_in_list_footer(&self, overlay: &Overlay, place: Position) -> Option<Key> {
        let window = self.shared.window();
        let [keys, _] = list_footer(window, &self.place_in_words(window, overlay));
        self.footer(overlay).key_at(keys, place)
    }

    /// The keys that matter now. On the help page there is nothing to take.
    fn footer(&self, overlay: &Overlay) -> Footer<'_> {
        match overlay {
            Overlay::Help(_) => {
                let idle = Command::List(ListCommand::Accept);
                self.shared.footer(Section::Picking, Some(idle))
            }
            Overlay::Palette(_) => self.shared.footer(Section::Picking, None),
            Overlay::Sound(_) => self.shared.footer(Section::Sound, None),
        }
    }

    /// Where one is in the list or the page.
    fn place_in_words(&self, area: Rect, overlay: &Overlay) -> String {
        match overlay {
            Overlay::Help(search) => self.place_in_help(area, search),
            Overlay::Sound(_) => String::new(),
            Overlay::Palette(_) => {
                self.palette_lines(area).as_ref().map(ListView::place_in_words).unwrap_or_default()
            }
        }
    }
}
