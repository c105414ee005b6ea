//! A field laid over the top of a screen, and what is said about what is typed in it.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Line;

use super::line::{below, broken, indented, write};
use crate::tui::theme::Theme;

/// The most rows that are said about what is typed.
const TOLD_ROWS: usize = 3;

/// Draws the line of a field on the first row of a screen, and below it what is told about it; what
/// lies there is covered for as long.
pub(in crate::tui) fn draw_field(
    screen: Rect,
    buffer: &mut Buffer,
    field: &Line<'_>,
    told: (&str, Style),
    theme: &Theme,
) {
    clear(below(screen, 0), buffer, theme);
    write(buffer, below(screen, 0), field);
    let (told, style) = told;
    let lines = broken(told, screen.width.saturating_sub(1)).into_iter().take(TOLD_ROWS);
    for (line, row) in lines.zip(1..) {
        let row = below(screen, row);
        clear(row, buffer, theme);
        write(buffer, indented(row), &Line::styled(line, style));
    }
}

/// Nothing is left of what was drawn there.
fn clear(row: Rect, buffer: &mut Buffer, theme: &Theme) {
    for column in row.left()..row.right() {
        if let Some(cell) = buffer.cell_mut((column, row.y)).filter(|_| !row.is_empty()) {
            cell.reset();
            cell.set_style(theme.screen);
        }
    }
}
