//! The list: a line for each keeper.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::{day, signs};
use crate::glyphs::printable_line;
use crate::store::{Keeper, KeptThing};
use crate::tui::widget::write;

/// A column: its heading, and how wide it is with the room after it.
const COLUMNS: [(&str, usize); 8] = [
    ("no.", 5),
    ("what", 8),
    ("chord", 12),
    ("pair", 15),
    ("tempo", 7),
    ("last", 10),
    ("due", 9),
    ("called", 0),
];

impl Drawing<'_> {
    pub(super) fn draw_rows(&self, headings: Rect, list: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let words = laid_out(&COLUMNS.map(|(heading, _)| heading.to_owned()));
        write(buffer, headings, &Line::styled(format!("   {words}"), theme.muted));
        let line = |index: usize, style: Style| {
            let keeper = self.screen.on_line(index, self.shared)?;
            Some(vec![Span::styled(laid_out(&self.cells(keeper)), style)])
        };
        self.lines(list).draw(buffer, theme, line);
    }

    /// What stands in the columns.
    fn cells(&self, keeper: &Keeper) -> [String; COLUMNS.len()] {
        let (kept, practice, today) = (&keeper.kept, &keeper.practice, self.shared.today());
        let chord = kept.chord.as_deref().map(signs::chords);
        let chord = chord.or_else(|| kept.scale.as_deref().map(signs::scale));
        let never = || "never".to_owned();
        [
            keeper.id.to_string(),
            kept.what.word().to_owned(),
            chord.unwrap_or_default(),
            pair(keeper),
            practice.best().or(practice.start).map(|tempo| tempo.to_string()).unwrap_or_default(),
            practice.last().map_or_else(never, |on| day::past(on, today)),
            practice.next().map(|on| day::coming(on, today)).unwrap_or_default(),
            keeper.name.as_deref().map(printable_line).unwrap_or_default(),
        ]
    }
}

/// The pair; the shape of one triad by its name and its frets.
fn pair(keeper: &Keeper) -> String {
    if let KeptThing::Shape(shape) = &keeper.kept.what {
        let frets = shape.places().iter().map(|place| place.fret);
        return format!("{} {}", signs::pair(shape.triad()), crate::words::dashed(frets));
    }
    keeper.kept.pair.as_deref().map(signs::pair).unwrap_or_default()
}

/// Cells in their columns; what is too long gives way with a sign, and the last one has what is left.
fn laid_out(cells: &[String; COLUMNS.len()]) -> String {
    let mut line = String::new();
    for (cell, (_, width)) in cells.iter().zip(COLUMNS) {
        let room = width.saturating_sub(2);
        if width == 0 {
            line.push_str(cell);
        } else if cell.chars().count() > room {
            line.extend(cell.chars().take(room.saturating_sub(1)));
            line.push_str("…  ");
        } else {
            line.push_str(&format!("{cell:<width$}"));
        }
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_that_is_too_long_says_so_and_moves_nothing() {
        let empty = [(); COLUMNS.len()].map(|()| String::new());
        let mut cells = empty.clone();
        cells[3] = "x".repeat(40);
        cells[4] = "92".to_owned();
        let line = laid_out(&cells);
        assert_eq!(line.chars().position(|sign| sign == '…'), Some(5 + 8 + 12 + 12));
        assert_eq!(line.chars().position(|sign| sign == '9'), Some(5 + 8 + 12 + 15));
        assert_eq!(laid_out(&empty).len(), COLUMNS.iter().map(|(_, width)| width).sum::<usize>());
    }
}
