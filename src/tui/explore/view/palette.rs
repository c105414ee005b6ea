//! Drawing the list of every command.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::Explore;
use super::super::finder::{Finder, name_of};
use super::line::write;
use super::lists::list_rows;

impl Explore {
    /// Name, keys and help of each command that fits what is typed.
    pub(super) fn draw_palette(&self, area: Rect, buffer: &mut Buffer, finder: &Finder) {
        let rows = self.offered(finder);
        write(buffer, area, &self.field_line(" Every command, or type its name: ", &finder.field));
        let line = |index: usize, style: Style| {
            let row = rows.get(index)?;
            Some(vec![
                Span::styled(format!("{:<18}", name_of(row)), style),
                Span::styled(format!("{:<14}", self.keys_of(row)), self.theme.key),
                Span::styled(row.help, self.theme.muted),
            ])
        };
        self.draw_lines(area, buffer, line);
        if rows.is_empty() {
            let none = "   no command has that name; the help page may say more";
            write(buffer, list_rows(area), &Line::styled(none, self.theme.muted));
        }
        self.draw_list_footer(area, buffer);
    }
}
