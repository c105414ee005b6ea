//! The bars: four to a row, the chords of each with their pairs below them.

use std::ops::Range;

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::Line;

use super::super::drawing::Drawing;
use super::super::layout::{BAR_ROWS, bars_a_row};
use super::super::sheet::{Cell, SheetBar, Sounds};
use crate::tui::widget::write;

/// Columns for the name of a section.
const MARGIN: u16 = 4;
/// A bar takes no more columns than that.
const WIDEST: u16 = 36;

impl Drawing<'_> {
    /// The rows in sight: the one in hand with those around it.
    fn rows_in_sight(&self, area: Rect) -> Vec<Range<usize>> {
        let rows = self.screen.sheet.rows(bars_a_row(area.width));
        let bar = self.screen.cell().map_or(0, |cell| cell.bar);
        let here = rows.iter().position(|row| row.contains(&bar)).unwrap_or_default();
        let count = usize::from(area.height / BAR_ROWS);
        let top = here.saturating_sub(count / 2).min(rows.len().saturating_sub(count));
        rows.into_iter().skip(top).take(count).collect()
    }

    /// Every part of a bar in sight, with the place of its chord and its pair.
    fn cells_in_sight(&self, area: Rect) -> Vec<(usize, Rect)> {
        let columns = bars_a_row(area.width) as u16;
        let wide = (area.width.saturating_sub(MARGIN) / columns.max(1)).min(WIDEST);
        let mut cells = Vec::new();
        for (row, bars) in (0..).zip(self.rows_in_sight(area)) {
            for (column, bar) in (0..).zip(bars) {
                let Some(bar) = self.screen.sheet.bars.get(bar) else { continue };
                let at = Rect {
                    x: area.x + MARGIN + column * wide,
                    y: area.y + row * BAR_ROWS,
                    width: wide,
                    height: BAR_ROWS,
                };
                cells.extend(self.cells_of(bar, at.intersection(area)));
            }
        }
        cells
    }

    /// The parts of a bar behind its number, as wide as they are long.
    fn cells_of(&self, bar: &SheetBar, at: Rect) -> Vec<(usize, Rect)> {
        let number = self.number_width() + 2;
        let room = at.width.saturating_sub(number + 1);
        let length = bar.length.to_f64().max(f64::MIN_POSITIVE);
        let start = |cell: &Cell| {
            let into = cell.from.checked_sub(bar.from).unwrap_or_default().to_f64();
            (f64::from(room) * into / length).floor() as u16
        };
        let cells = self.screen.sheet.cells.get(bar.cells.clone()).unwrap_or_default();
        let starts: Vec<u16> = cells.iter().map(start).collect();
        let ends = starts.iter().skip(1).copied().chain([room + 1]);
        let place = |((index, start), end): ((usize, &u16), u16)| {
            let x = at.x + number + start;
            let width = end.saturating_sub(*start).min(at.right().saturating_sub(x));
            (index, Rect { x, width, ..at })
        };
        bar.cells.clone().zip(&starts).zip(ends).map(place).collect()
    }

    /// Columns of the largest number of a bar.
    fn number_width(&self) -> u16 {
        let last = self.screen.sheet.bars.last().map_or(0, |bar| bar.number);
        last.to_string().len() as u16
    }

    /// The part of a bar at a place of the window: that of its bar whose chord stands there or before
    /// it.
    pub(in crate::tui::changes) fn cell_at(&self, area: Rect, place: Position) -> Option<usize> {
        let number = self.number_width() + 2;
        let cells = self.cells_in_sight(area);
        let is_there = |index: usize, at: Rect| {
            let is_first =
                self.screen.sheet.bar_of(index).is_some_and(|bar| bar.cells.start == index);
            let before = if is_first { number } else { 0 };
            Rect { x: at.x.saturating_sub(before), width: at.width + before, ..at }.contains(place)
        };
        cells.into_iter().find(|(index, at)| is_there(*index, *at)).map(|(index, _)| index)
    }

    pub(super) fn draw_bars(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        if self.screen.sheet.bars.is_empty() {
            let none = "   no bars yet: type the chords, as Dm7 | G7 | Cmaj7";
            write(buffer, area, &Line::styled(none, theme.muted));
        }
        let in_hand = self.screen.cell().map(|cell| cell.bar);
        for (index, at) in self.cells_in_sight(area) {
            let Some(cell) = self.screen.sheet.cells.get(index) else { continue };
            let bar = self.screen.sheet.bars.get(cell.bar);
            if let Some(bar) = bar.filter(|bar| bar.cells.start == index) {
                self.draw_number(area, at, buffer, bar, in_hand == Some(cell.bar));
            }
            self.draw_cell(at, buffer, (index, cell));
        }
    }

    /// The number of a bar, and the section that begins with it.
    fn draw_number(
        &self,
        area: Rect,
        at: Rect,
        buffer: &mut Buffer,
        bar: &SheetBar,
        is_in_hand: bool,
    ) {
        let theme = &self.shared.theme;
        let width = self.number_width();
        let (mark, style) = if is_in_hand { ("▸", theme.chosen) } else { (" ", theme.muted) };
        let number = format!("{mark}{:>1$}", bar.number, usize::from(width));
        let before = Rect { x: at.x.saturating_sub(width + 2), width: width + 1, ..at };
        write(buffer, before, &Line::styled(number, style));
        if let Some(section) = &bar.section {
            let margin = Rect { x: area.x, width: MARGIN.min(area.width), ..at };
            write(buffer, margin, &Line::styled(format!(" {section}"), theme.title));
        }
        if let Some(meter) = bar.new_meter {
            let under = Rect { y: before.y + 1, ..before };
            write(buffer, under, &Line::styled(meter.to_string(), theme.muted));
        }
    }

    fn draw_cell(&self, at: Rect, buffer: &mut Buffer, (index, cell): (usize, &Cell)) {
        let theme = &self.shared.theme;
        let style = if index == self.screen.cursor { theme.held } else { theme.text };
        let room = usize::from(at.width.saturating_sub(1));
        let chord = cut(self.chord_in_words(cell), room);
        write(buffer, at, &Line::styled(chord, style));
        let (pair, style) = self.pair_of(cell);
        let under = Rect { y: at.y + 1, ..at };
        let pair = closer(pair, room);
        write(buffer, under, &Line::styled(cut(pair, room), style));
    }

    /// The chord; `%` for a bar that is like the one before, in which it began.
    fn chord_in_words(&self, cell: &Cell) -> String {
        let is_alone = |bar: Option<&SheetBar>| bar.is_some_and(|bar| bar.cells.len() == 1);
        let before = cell.bar.checked_sub(1).and_then(|before| self.screen.sheet.bars.get(before));
        let is_like =
            !cell.is_new && is_alone(before) && is_alone(self.screen.sheet.bars.get(cell.bar));
        match &cell.sounds {
            Sounds::Chord(_) | Sounds::NoChord if is_like => "%".to_owned(),
            Sounds::Chord(chord) => chord.to_string(),
            Sounds::NoChord => "N.C.".to_owned(),
            Sounds::Unread => "?".to_owned(),
        }
    }

    /// `A & B`, `A & B *` where it is settled, `=` where it goes on. The first chord says its pair even
    /// where the last one leads to it with the same: it has none before it on the sheet.
    fn pair_of(&self, cell: &Cell) -> (String, Style) {
        let theme = &self.shared.theme;
        let Some((_, planned)) = self.screen.planned(cell) else {
            let is_coming =
                matches!(cell.sounds, Sounds::Chord(_)) && self.screen.plans.is_waiting();
            return (if is_coming { "…" } else { "" }.to_owned(), theme.muted);
        };
        let settled = planned.settled.is_some();
        let mut cells = self.screen.sheet.cells.iter();
        let first = cells.find(|cell| matches!(cell.sounds, Sounds::Chord(_)));
        let is_first = first.is_some_and(|first| first.from == cell.from);
        match (planned.from < cell.from || planned.is_kept() && !is_first, settled) {
            (true, true) if planned.from == cell.from => ("= *".to_owned(), theme.text),
            (true, _) => ("=".to_owned(), theme.muted),
            (false, true) => (format!("{} *", planned.pair), theme.text),
            (false, false) => (planned.pair.to_string(), theme.text),
        }
    }
}

/// Rather close together than cut, and rather with a sign for a diminished triad.
fn closer(pair: String, room: usize) -> String {
    let is_long = |pair: &str| pair.chars().count() > room;
    if !is_long(&pair) {
        return pair;
    }
    let close = pair.replace(" & ", "&").replace(" *", "*");
    if is_long(&close) { close.replace("dim", "°") } else { close }
}

/// As much as there is room for, and a sign where something is left out.
fn cut(text: String, room: usize) -> String {
    if text.chars().count() <= room {
        return text;
    }
    let kept: String = text.chars().take(room.saturating_sub(1)).collect();
    if room == 0 { String::new() } else { kept + "…" }
}

#[cfg(test)]
mod tests {
    use super::closer;

    #[test]
    fn a_pair_is_told_in_little_room() {
        let told = |room| closer("Fdim & E♭dim *".to_owned(), room);
        assert_eq!(
            [told(14), told(11), told(10), told(3)],
            ["Fdim & E♭dim *", "Fdim&E♭dim*", "F°&E♭°*", "F°&E♭°*"]
        );
        assert_eq!(closer("C & D".to_owned(), 4), "C&D");
    }
}
