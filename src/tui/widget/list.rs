//! A list that scrolls: drawing and clicks ask here where each line lies.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::line::write;
use crate::tui::command::ListCommand;
use crate::tui::theme::Theme;

/// A list on some rows of the screen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) struct ListView {
    /// Where the list lies.
    pub(in crate::tui) area: Rect,
    /// Which line is marked.
    pub(in crate::tui) marked: usize,
    /// How many lines the whole list has.
    pub(in crate::tui) count: usize,
    /// The line that the mouse chose last; while it is marked, the list stays as it was seen.
    pub(in crate::tui) pointed_at: Option<ListLine>,
}

/// A line of a list as it is seen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) struct ListLine {
    /// Which line, from 0.
    pub(in crate::tui) line: usize,
    /// The line that is on top of the list meanwhile.
    pub(in crate::tui) top: usize,
}

impl ListView {
    /// The line on top: that which brings the marked one to the middle; if the mouse chose the
    /// marked one, that which leaves it under the mouse, so that a second click means the same line.
    pub(in crate::tui) fn top(&self) -> usize {
        let rows = usize::from(self.area.height);
        let lowest = self.count.saturating_sub(rows);
        let as_seen = self.pointed_at.filter(|seen| seen.line == self.marked);
        let as_seen = as_seen.map(|seen| seen.top.min(lowest));
        as_seen
            .filter(|top| (*top..*top + rows).contains(&self.marked))
            .unwrap_or_else(|| self.marked.saturating_sub(rows / 2).min(lowest))
    }

    /// Every line in view, with the row that it lies on.
    pub(in crate::tui) fn in_view(&self) -> impl Iterator<Item = (usize, Rect)> {
        let area = self.area;
        let row = move |row| Rect { y: area.y.saturating_add(row), height: 1, ..area };
        (self.top()..self.count).zip((0..area.height).map(row))
    }

    /// The line at a place of the screen.
    pub(in crate::tui) fn at(&self, place: Position) -> Option<ListLine> {
        let (line, _) = self.in_view().find(|(_, row)| row.contains(place))?;
        Some(ListLine { line, top: self.top() })
    }
}

impl ListView {
    /// Draws the lines in view, the marked one behind a sign and in the style of what is chosen;
    /// `line` gives what stands after the mark, for the number of the line and its style.
    pub(in crate::tui) fn draw(
        &self,
        buffer: &mut Buffer,
        theme: &Theme,
        line: impl Fn(usize, Style) -> Option<Vec<Span<'static>>>,
    ) {
        for (index, row) in self.in_view() {
            let marked = index == self.marked;
            let style = if marked { theme.chosen } else { theme.text };
            let mut spans = vec![Span::styled(if marked { " ▸ " } else { "   " }, style)];
            spans.extend(line(index, style).unwrap_or_default());
            write(buffer, row, &Line::from(spans));
        }
    }

    /// `3 of 12 `; nothing of a list without lines.
    pub(in crate::tui) fn place_in_words(&self) -> String {
        if self.count == 0 {
            return String::new();
        }
        format!("{} of {} ", self.marked + 1, self.count)
    }
}

/// Where a list stands after a command; its end is the caller's business.
pub(in crate::tui) fn moved(now: usize, command: ListCommand, page: usize) -> usize {
    match command {
        ListCommand::Down => now + 1,
        ListCommand::Up => now.saturating_sub(1),
        ListCommand::PageDown => now + page,
        ListCommand::PageUp => now.saturating_sub(page),
        ListCommand::Accept | ListCommand::Cancel => now,
    }
}

/// What a list that takes the whole screen has between its title and its footer.
pub(in crate::tui) fn list_rows(screen: Rect) -> Rect {
    let below =
        Rect { y: screen.y.saturating_add(1), height: screen.height.saturating_sub(2), ..screen };
    below.intersection(screen)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::text_of;

    fn lines(rows: u16, marked: usize, count: usize) -> ListView {
        ListView { area: Rect::new(2, 3, 10, rows), marked, count, pointed_at: None }
    }

    #[test]
    fn the_marked_line_is_in_the_middle_where_there_are_lines_enough() {
        let cases =
            [((5, 10, 20), 8), ((5, 0, 20), 0), ((5, 19, 20), 15), ((5, 2, 3), 0), ((0, 2, 3), 2)];
        for ((rows, marked, count), top) in cases {
            assert_eq!(lines(rows, marked, count).top(), top, "{rows} {marked} {count}");
        }
    }

    #[test]
    fn a_line_that_the_mouse_chose_stays_where_it_was_seen() {
        let top = |marked, count, (line, top)| {
            let pointed_at = Some(ListLine { line, top });
            ListView { pointed_at, ..lines(5, marked, count) }.top()
        };
        assert_eq!(top(10, 20, (10, 6)), 6);
        // Another line is marked by now; the window or the list has become smaller.
        assert_eq!(top(11, 20, (10, 6)), 9);
        assert_eq!(top(10, 20, (10, 3)), 8);
        assert_eq!(top(2, 3, (2, 2)), 0);
    }

    #[test]
    fn a_line_is_found_where_it_lies_and_none_beside_it() {
        let at = |list: ListView, column, row| {
            list.at(Position::new(column, row)).map(|seen| (seen.line, seen.top))
        };
        let list = lines(3, 4, 9);
        assert_eq!([at(list, 2, 3), at(list, 11, 4)], [Some((3, 3)), Some((4, 3))]);
        for (column, row) in [(1, 3), (12, 3), (5, 2), (5, 6)] {
            assert_eq!(at(list, column, row), None, "{column} {row}");
        }
        assert_eq!(at(lines(3, 0, 1), 2, 4), None);
        assert_eq!(at(lines(0, 0, 1), 2, 3), None);
    }

    fn drawn(columns: u16, rows: u16, marked: usize, count: usize) -> Buffer {
        let area = Rect::new(0, 0, columns, rows);
        let mut buffer = Buffer::empty(area);
        let list = ListView { area, marked, count, pointed_at: None };
        let line = |index, style| Some(vec![Span::styled(format!("line {index}"), style)]);
        list.draw(&mut buffer, &Theme::monochrome(), line);
        buffer
    }

    #[test]
    fn the_lines_in_view_are_drawn_and_one_is_marked() {
        assert_eq!(text_of(&drawn(80, 3, 4, 9)), "   line 3\n ▸ line 4\n   line 5\n");
        assert_eq!(text_of(&drawn(6, 2, 0, 9)), " ▸ li…\n   li…\n");
        assert_eq!(text_of(&drawn(1, 1, 0, 9)), "…\n");
        assert_eq!(drawn(0, 0, 0, 9), Buffer::empty(Rect::ZERO));
        assert_eq!(text_of(&drawn(80, 2, 0, 1)), " ▸ line 0\n\n");
        let mut expected = Buffer::with_lines([" ▸ line 0"]);
        expected.set_style(expected.area, Theme::monochrome().chosen);
        assert_eq!(drawn(9, 1, 0, 1), expected);
    }

    #[test]
    fn the_place_in_a_list_is_told_unless_it_is_empty() {
        let told = |marked, count| lines(5, marked, count).place_in_words();
        assert_eq!([told(0, 12), told(11, 12), told(0, 0)], ["1 of 12 ", "12 of 12 ", ""]);
    }
}
