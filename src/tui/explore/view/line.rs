//! Small helps for drawing lines of text.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::Line;

/// Writes a line on the first row of an area, if it has one; a line that is cut off says so.
pub(super) fn write(buffer: &mut Buffer, area: Rect, line: &Line<'_>) {
    if area.is_empty() {
        return;
    }
    let (end, _) = buffer.set_line(area.x, area.y, line, area.width);
    // Most lines end before the area does, and need not be measured.
    if end == area.right()
        && line.width() > usize::from(area.width)
        && let Some(last) = buffer.cell_mut((area.right() - 1, area.y))
    {
        last.set_symbol("…");
    }
}

/// One row of an area.
pub(super) fn below(area: Rect, row: u16) -> Rect {
    Rect { y: area.y.saturating_add(row), height: area.height.saturating_sub(row).min(1), ..area }
}

/// One column in from the left.
pub(super) fn indented(area: Rect) -> Rect {
    let by = area.width.min(1);
    Rect { x: area.x + by, width: area.width - by, ..area }
}

pub(super) fn padded(text: &str, width: usize) -> String {
    format!("{text:width$}")
}

/// As many words as fit, and a sign where some do not.
pub(super) fn fitting(words: impl Iterator<Item = String>, width: usize) -> String {
    let mut text = String::new();
    for word in words {
        if text.chars().count() + word.chars().count() + 3 > width {
            return text + "…";
        }
        text = text + &word + "  ";
    }
    text
}
