//! The list of every command, searched.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::effect::Effect;
use super::overlay::Overlay;
use super::state::Program;
use crate::tui::command::{COMMANDS, Command, CommandRow, ListCommand, ProgramCommand};
use crate::tui::gesture::Spot;

use crate::tui::widget::{ListView, Search, list_rows, moved, write};

impl Program {
    /// The commands that the list offers: all that can be asked for on the screen in front, those
    /// first whose name has what is typed.
    fn offered(&self, search: &Search) -> Vec<&'static CommandRow> {
        let there = |row: &&CommandRow| {
            row.section.is_heard_with(self.screens.own_section())
                && row.command != Command::Program(ProgramCommand::Palette)
        };
        let mut rows: Vec<_> =
            COMMANDS.iter().filter(there).filter(|row| search.finds(&row.words())).collect();
        rows.sort_by_key(|row| !search.finds(&row.title()));
        rows
    }

    pub(super) fn obey_in_palette(&mut self, command: ListCommand) -> Vec<Effect> {
        let page = self.page_rows();
        let Some(Overlay::Palette(search)) = &self.overlay else { return Vec::new() };
        let offered = self.offered(search);
        let marked = offered.get(search.at).map(|row| row.command);
        let last = offered.len().saturating_sub(1);
        let Some(Overlay::Palette(search)) = &mut self.overlay else { return Vec::new() };
        match command {
            ListCommand::Cancel if search.empty() => {}
            ListCommand::Cancel => self.overlay = None,
            ListCommand::Accept => {
                let Some(marked) = marked else { return Vec::new() };
                self.overlay = None;
                return self.obey(marked);
            }
            ListCommand::Down | ListCommand::Up | ListCommand::PageDown | ListCommand::PageUp => {
                search.at = moved(search.at, command, page).min(last);
            }
        }
        Vec::new()
    }

    /// The lines of the list, if it is open.
    pub(super) fn palette_lines(&self, area: Rect) -> Option<ListView> {
        let Some(Overlay::Palette(search)) = &self.overlay else { return None };
        Some(ListView {
            area: list_rows(area),
            marked: search.at,
            count: self.offered(search).len(),
            pointed_at: self.shared.clicked(Spot::Line),
        })
    }

    /// Name, keys and help of each command that fits what is typed.
    pub(super) fn draw_palette(&self, area: Rect, buffer: &mut Buffer, search: &Search) {
        let theme = &self.shared.theme;
        let rows = self.offered(search);
        write(buffer, area, &search.field.line(" Every command, or type its name: ", theme));
        let line = |index: usize, style: Style| {
            let row = rows.get(index)?;
            Some(vec![
                Span::styled(format!("{:<18}", row.title()), style),
                Span::styled(format!("{:<14}", self.keys_of(row)), theme.key),
                Span::styled(row.help, theme.muted),
            ])
        };
        if let Some(lines) = self.palette_lines(area) {
            lines.draw(buffer, theme, line);
        }
        if rows.is_empty() {
            let none = "   no command has that name; the help page may say more";
            write(buffer, list_rows(area), &Line::styled(none, theme.muted));
        }
        if let Some(overlay) = &self.overlay {
            self.draw_list_footer(area, buffer, overlay);
        }
    }
}
