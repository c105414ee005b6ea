//! Lines of text in the cells of a screen.

use std::borrow::Cow;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use crate::glyphs::is_plain;

/// Writes a line on the first row of an area, if it has one; a line that is cut off says so.
pub(in crate::tui) fn write(buffer: &mut Buffer, area: Rect, line: &Line<'_>) {
    if area.is_empty() {
        return;
    }
    let is_cut = if line.iter().all(|span| is_plain(&span.content)) {
        write_plain(buffer, area, line)
    } else {
        buffer.set_line(area.x, area.y, line, area.width);
        line.width() > usize::from(area.width)
    };
    if is_cut {
        say_that_it_is_cut(buffer, area);
    }
}

fn say_that_it_is_cut(buffer: &mut Buffer, area: Rect) {
    let last = area.right() - 1;
    if area.width > 1
        && let Some(before) = buffer.cell_mut((last - 1, area.y))
        && Span::raw(before.symbol()).width() > 1
    {
        // It would lie over the last column.
        before.set_symbol(" ");
    }
    if let Some(cell) = buffer.cell_mut((last, area.y)) {
        cell.set_symbol("…");
    }
}

/// The same as `Buffer::set_line` for a line of which every sign fills one column: no need to look
/// for signs that belong together, which takes most of its time. Is the line too long?
fn write_plain(buffer: &mut Buffer, area: Rect, line: &Line<'_>) -> bool {
    let signs = line.iter().flat_map(|span| {
        let style = line.style.patch(span.style);
        span.content.chars().map(move |sign| (sign, style))
    });
    let mut columns = area.left()..area.right();
    for (sign, style) in signs {
        let Some(column) = columns.next() else { return true };
        if let Some(cell) = buffer.cell_mut((column, area.y)) {
            cell.set_char(sign).set_style(style);
        }
    }
    false
}

/// One row of an area.
pub(in crate::tui) fn below(area: Rect, row: u16) -> Rect {
    Rect { y: area.y.saturating_add(row), height: area.height.saturating_sub(row).min(1), ..area }
}

/// One column in from the left.
pub(in crate::tui) fn indented(area: Rect) -> Rect {
    let by = area.width.min(1);
    Rect { x: area.x + by, width: area.width - by, ..area }
}

/// Filled with spaces to a width in characters; a longer text stays.
pub(in crate::tui) fn padded(text: &str, width: usize) -> String {
    format!("{text:width$}")
}

/// A text in lines of at most so many columns: broken between words, and within one that is longer.
pub(in crate::tui) fn broken(text: &str, width: u16) -> Vec<String> {
    let lines = textwrap::wrap(text, usize::from(width.max(1)));
    lines.into_iter().map(Cow::into_owned).collect()
}

/// Lines as far as there are rows; the last one goes on with what is left over, and so says where it
/// is cut.
pub(in crate::tui) fn cut_to(mut lines: Vec<String>, rows: usize) -> Vec<String> {
    if lines.len() > rows {
        let rest = lines.split_off(rows.saturating_sub(1));
        lines.extend((rows > 0).then(|| rest.join(" ")));
    }
    lines
}

/// As many words as fit, and a sign where some do not.
pub(in crate::tui) fn fitting(words: impl Iterator<Item = String>, width: usize) -> String {
    let mut text = String::new();
    for word in words {
        if text.chars().count() + word.chars().count() + 3 > width {
            return text + "…";
        }
        text = text + &word + "  ";
    }
    text
}

#[cfg(test)]
mod tests {
    use ratatui::buffer::Cell;
    use ratatui::style::{Modifier, Style};

    use super::*;

    /// The terminal library's own way is the measure, for every sign of ours and any width.
    #[test]
    fn a_plain_line_is_written_as_the_library_writes_it() {
        let bold = Style::new().add_modifier(Modifier::BOLD);
        let line = Line::styled("", bold).spans([
            Span::raw(" ▸ B♭ & F♯m  "),
            Span::styled("1 ♭3 5 · 9 ♯11", Style::new().add_modifier(Modifier::REVERSED)),
            Span::raw(" – °øΔ─╌│┃┼┤├║═╪×●○›‹↑↓←→…“”’"),
        ]);
        let length = u16::try_from(line.width()).unwrap();
        for width in 1..=length + 3 {
            let area = Rect::new(2, 0, width, 1);
            let [mut ours, mut theirs] = [0, 1].map(|_| Buffer::filled(area, Cell::new("#")));
            assert_eq!(write_plain(&mut ours, area, &line), width < length);
            theirs.set_line(area.x, area.y, &line, width);
            assert_eq!(ours, theirs, "{width}");
        }
    }

    #[test]
    fn signs_that_fill_two_columns_or_none_are_left_to_the_library() {
        let text = |text: &str, width| {
            let area = Rect::new(0, 0, width, 1);
            let mut buffer = Buffer::empty(area);
            write(&mut buffer, area, &Line::raw(text));
            crate::tui::text_of(&buffer)
        };
        assert_eq!(text("e\u{301}t 音", 6), "e\u{301}t 音\n");
        assert_eq!(text("音音音", 4), "音  …\n");
    }

    #[test]
    fn a_line_is_cut_at_the_edge_and_says_so() {
        let text = |columns, rows| {
            let area = Rect::new(0, 0, columns, rows);
            let mut buffer = Buffer::empty(area);
            write(&mut buffer, area, &Line::raw("G & A"));
            crate::tui::text_of(&buffer)
        };
        assert_eq!(text(0, 0), "");
        assert_eq!(text(1, 1), "…\n");
        assert_eq!(text(4, 1), "G &…\n");
        assert_eq!(text(5, 2), "G & A\n\n");
        assert_eq!(text(80, 1), "G & A\n");
    }
}
