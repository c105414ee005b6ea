//! From chord to chord, row to row, section to section.

use super::super::sheet::BARS_A_ROW;
use super::super::state::ChangesScreen;
use super::Way;
use crate::tui::shared::Shared;

impl ChangesScreen {
    /// To the next chord or bar; the last one leads to the first.
    pub(super) fn step(&mut self, way: Way) {
        let Some(last) = self.sheet.cells.len().checked_sub(1) else { return };
        self.cursor = match way {
            Way::Next if self.cursor < last => self.cursor + 1,
            Way::Next => 0,
            Way::Before => self.cursor.checked_sub(1).unwrap_or(last),
        };
    }

    /// To the bar above or below in the row that is next.
    pub(super) fn step_row(&mut self, way: Way, shared: &mut Shared) {
        let rows = self.sheet.rows(BARS_A_ROW);
        let Some(bar) = self.cell().map(|cell| cell.bar) else { return };
        let Some(row) = rows.iter().position(|row| row.contains(&bar)) else { return };
        let next = match way {
            Way::Next => rows.get(row + 1),
            Way::Before => row.checked_sub(1).and_then(|before| rows.get(before)),
        };
        let (Some(next), Some(here)) = (next, rows.get(row)) else {
            shared.tell(match way {
                Way::Next => "this is the last row",
                Way::Before => "this is the first row",
            });
            return;
        };
        let bar = (next.start + (bar - here.start)).min(next.end.saturating_sub(1));
        self.go_to_bar(bar);
    }

    pub(super) fn step_section(&mut self, way: Way, shared: &mut Shared) {
        let Some(cell) = self.cell() else { return };
        let is_at_its_bar = self.bar().is_some_and(|bar| bar.cells.start == self.cursor);
        let begins = |index: &usize| {
            *index == 0 || self.sheet.bars.get(*index).is_some_and(|bar| bar.section.is_some())
        };
        let next = match way {
            Way::Next => (cell.bar + 1..self.sheet.bars.len()).find(begins),
            Way::Before if is_at_its_bar => (0..cell.bar).rev().find(begins),
            Way::Before => (0..=cell.bar).rev().find(begins),
        };
        match next {
            Some(bar) => self.go_to_bar(bar),
            None => shared.tell(match way {
                Way::Next => "no section begins after this one",
                Way::Before => "this is the first bar",
            }),
        }
    }

    pub(super) fn go_to_last_bar(&mut self) {
        self.go_to_bar(self.sheet.bars.len().saturating_sub(1));
    }

    fn go_to_bar(&mut self, bar: usize) {
        if let Some(bar) = self.sheet.bars.get(bar) {
            self.cursor = bar.cells.start;
        }
    }
}
