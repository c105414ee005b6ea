//! The lines of a list in view: who draws them and who points at them ask here where each one lies.

use ratatui::layout::{Position, Rect};

/// A list on some rows of the screen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Lines {
    /// Where the list lies.
    pub(super) area: Rect,
    /// Which line is marked.
    pub(super) marked: usize,
    /// How many lines the whole list has.
    pub(super) count: usize,
    /// The line that the mouse chose last; while it is marked, the list stays as it was seen.
    pub(super) pointed_at: Option<Seen>,
}

/// A line of a list as it is seen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Seen {
    /// Which line, from 0.
    pub(super) line: usize,
    /// The line that is on top of the list meanwhile.
    pub(super) top: usize,
}

impl Lines {
    /// The line on top: that which brings the marked one to the middle; if the mouse chose the
    /// marked one, that which leaves it under the mouse, so that a second click means the same line.
    pub(super) fn top(&self) -> usize {
        let rows = usize::from(self.area.height);
        let lowest = self.count.saturating_sub(rows);
        let as_seen = self.pointed_at.filter(|seen| seen.line == self.marked);
        let as_seen = as_seen.map(|seen| seen.top.min(lowest));
        as_seen
            .filter(|top| (*top..*top + rows).contains(&self.marked))
            .unwrap_or_else(|| self.marked.saturating_sub(rows / 2).min(lowest))
    }

    /// Every line in view, with the row that it lies on.
    pub(super) fn in_view(&self) -> impl Iterator<Item = (usize, Rect)> {
        let area = self.area;
        let row = move |row| Rect { y: area.y.saturating_add(row), height: 1, ..area };
        (self.top()..self.count).zip((0..area.height).map(row))
    }

    /// The line at a place of the screen.
    pub(super) fn at(&self, place: Position) -> Option<Seen> {
        let (line, _) = self.in_view().find(|(_, row)| row.contains(place))?;
        Some(Seen { line, top: self.top() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(rows: u16, marked: usize, count: usize) -> Lines {
        Lines { area: Rect::new(2, 3, 10, rows), marked, count, pointed_at: None }
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
            let pointed_at = Some(Seen { line, top });
            Lines { pointed_at, ..lines(5, marked, count) }.top()
        };
        assert_eq!(top(10, 20, (10, 6)), 6);
        // Another line is marked by now; the window or the list has become smaller.
        assert_eq!(top(11, 20, (10, 6)), 9);
        assert_eq!(top(10, 20, (10, 3)), 8);
        assert_eq!(top(2, 3, (2, 2)), 0);
    }

    #[test]
    fn a_line_is_found_where_it_lies_and_none_beside_it() {
        let at = |list: Lines, column, row| {
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
}
