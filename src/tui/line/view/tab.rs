//! The tablature, with the note at the cursor.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::Line;

use super::super::drawing::Drawing;
use crate::picture::{TabBelow, TabLook, TabRow, TabRowKind, TabSpot, TabSystem};
use crate::tui::theme::Theme;
use crate::tui::widget::{below, indented, write};

/// The lines of tablature that are in sight.
#[derive(Clone)]
pub(in crate::tui::line) struct Shown {
    systems: Vec<TabSystem>,
}

impl Shown {
    /// The rows that they take, with a row between two of them.
    pub(super) fn height(&self) -> u16 {
        let rows: usize = self.systems.iter().map(|system| system.rows.len()).sum();
        (rows + self.systems.len().saturating_sub(1)) as u16
    }

    /// Does it lack how notes are counted?
    fn is_bare(&self) -> bool {
        let counts = |row: &TabRow| row.kind == TabRowKind::Count;
        !self.systems.iter().any(|system| system.rows.iter().any(counts))
    }

    /// Without the numbers of the bars.
    fn without_bars(mut self) -> Shown {
        for system in &mut self.systems {
            system.rows.retain(|row| row.kind != TabRowKind::Bars);
        }
        self
    }

    /// The note nearest to a place of the area in which they are drawn, if one is near it.
    pub(in crate::tui::line) fn note_at(&self, area: Rect, place: Position) -> Option<usize> {
        let row = usize::from(place.y.checked_sub(area.y)?);
        let (system, _) = self.rows().nth(row)??;
        let column = usize::from(place.x.checked_sub(indented(area).x)?);
        let away = |spot: &&TabSpot| spot.column.abs_diff(column);
        system.spots.iter().min_by_key(away).filter(|spot| away(spot) <= 2).map(|spot| spot.event)
    }

    /// Their rows, each with the line that it is of; a row without a line lies between two.
    fn rows(&self) -> impl Iterator<Item = Option<(&TabSystem, &TabRow)>> {
        self.systems.iter().enumerate().flat_map(|(index, system)| {
            let between = (index > 0).then_some(None);
            between.into_iter().chain(system.rows.iter().map(move |row| Some((system, row))))
        })
    }
}

/// What is shown of a tab, the most first.
fn looks(width: u16) -> [TabLook; 5] {
    let all = TabLook {
        width: usize::from(width),
        below: TabBelow::Degrees,
        triads: true,
        ..TabLook::default()
    };
    let no_positions = TabLook { positions: false, ..all };
    let no_fingers = TabLook { fingers: false, ..no_positions };
    let no_strokes = TabLook { strokes: false, ..no_fingers };
    let strings = TabLook { rhythm: false, below: TabBelow::Nothing, triads: false, ..no_strokes };
    [all, no_positions, no_fingers, no_strokes, strings]
}

impl Drawing<'_> {
    /// As much of the tablature as there are rows for: all of it if it can be, else the lines from
    /// that of the cursor on.
    pub(super) fn shown(&self, rows: u16, columns: u16) -> Shown {
        let Some(made) = self.screen.made() else { return Shown { systems: Vec::new() } };
        let width = columns.saturating_sub(2);
        let all = looks(width).map(|look| Shown { systems: made.tab.systems(&look) });
        let [.., strings] = all.clone();
        let whole = all.iter().rev().skip(1).rev().position(|shown| shown.height() <= rows);
        if let Some(whole) = whole {
            return all.into_iter().nth(whole).unwrap_or(strings);
        }
        let fits = |shown: &Shown| shown.height() <= rows;
        let here = all.map(|shown| self.lines_from_cursor(shown, rows));
        let [.., no_strokes, strings] = &here;
        let no_bars = no_strokes.clone().without_bars();
        let strings = strings.clone();
        let of_line = here.into_iter().find(|shown| fits(shown) && !shown.is_bare());
        of_line.or(Some(no_bars).filter(fits)).unwrap_or(strings)
    }

    /// The line of the cursor and those after it, as far as there are rows.
    fn lines_from_cursor(&self, shown: Shown, rows: u16) -> Shown {
        let is_here =
            |system: &TabSystem| system.spots.iter().any(|spot| spot.event == self.screen.cursor);
        let first = shown.systems.iter().position(is_here).unwrap_or_default();
        let mut used = 0;
        let fits = |system: &TabSystem| {
            let gap = usize::from(used > 0);
            used += gap + system.rows.len();
            used <= usize::from(rows) || gap == 0
        };
        let systems = shown.systems.into_iter().skip(first);
        let mut fits = fits;
        Shown { systems: systems.take_while(|system| fits(system)).collect() }
    }

    pub(super) fn draw_tab(&self, area: Rect, buffer: &mut Buffer, shown: &Shown) {
        if self.screen.made().is_none() {
            self.draw_refusal(area, buffer);
            return;
        }
        let inside = indented(area);
        for (row, at) in shown.rows().zip(0..area.height) {
            let Some((system, row)) = row else { continue };
            let here = below(inside, at);
            write(buffer, here, &Line::styled(row.text.clone(), self.style_of(row.kind)));
            for spot in
                system.spots.iter().filter(|spot| TabRowKind::String(spot.string) == row.kind)
            {
                self.mark(here, buffer, spot);
            }
        }
    }

    /// The number of a note in the style of its triad, and of the cursor.
    fn mark(&self, row: Rect, buffer: &mut Buffer, spot: &TabSpot) {
        let theme = &self.shared.theme;
        let style = self.style_of_note(spot.event);
        let is_here = spot.event == self.screen.cursor;
        let style = if is_here { style.patch(theme.held) } else { style };
        let columns = spot.column..spot.column + spot.width;
        for column in columns.filter_map(|column| u16::try_from(column).ok()) {
            if column < row.width
                && let Some(cell) = buffer.cell_mut((row.x + column, row.y))
            {
                cell.set_style(style);
            }
        }
    }

    fn style_of(&self, kind: TabRowKind) -> Style {
        let Theme { title, string, muted, text, .. } = self.shared.theme;
        match kind {
            TabRowKind::Chords => title,
            TabRowKind::String(_) => string,
            TabRowKind::Below(_) => text,
            TabRowKind::Bars
            | TabRowKind::Positions
            | TabRowKind::Accents
            | TabRowKind::Strokes
            | TabRowKind::Count
            | TabRowKind::Fingers(_) => muted,
        }
    }
}
