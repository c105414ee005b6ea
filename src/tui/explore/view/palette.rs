//! Drawing the list of every command.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::Explore;
use crate::tui::widget::Search;
use crate::tui::widget::{list_rows, write};

impl Explore {
    /// Name, keys and help of each command that fits what is typed.
    pub(super) fn draw_palette(&self, area: Rect, buffer: &mut Buffer, search: &Search) {
        let rows = self.offered(search);
        write(buffer, area, &search.field.line(" Every command, or type its name: ", &self.theme));
        let line = |index: usize, style: Style| {
            let row = rows.get(index)?;
            Some(vec![
                Span::styled(format!("{:<18}", row.title()), style),
                Span::styled(format!("{:<14}", self.keys_of(row)), self.theme.key),
                Span::styled(row.help, self.theme.muted),
            ])
        };
        if let Some(lines) = self.lines_over(area) {
            lines.draw(buffer, &self.theme, line);
        }
        if rows.is_empty() {
            let none = "   no command has that name; the help page may say more";
            write(buffer, list_rows(area), &Line::styled(none, self.theme.muted));
        }
        self.draw_list_footer(area, buffer);
    }
}
