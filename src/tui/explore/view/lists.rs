//! What can lie over the explorer: the help page and the list of tunings.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use super::super::Explore;
use super::top::{below, first_row, write};
use crate::tui::command::{COMMANDS, Section};
use crate::tui::key::Glyphs;

impl Explore {
    /// Every key, made from the live table.
    pub(in crate::tui::explore) fn help_lines(&self) -> Vec<Line<'static>> {
        let glyphs = if self.ascii { Glyphs::Ascii } else { Glyphs::Unicode };
        let mut lines = Vec::new();
        for section in [Section::Explore, Section::Chord, Section::List, Section::Everywhere] {
            lines.push(Line::styled(format!(" {}", section.heading()), self.theme.title));
            for row in COMMANDS.iter().filter(|row| row.section == section) {
                let keys: Vec<String> =
                    self.keys.of(row).iter().map(|key| key.label(glyphs)).collect();
                lines.push(Line::from(vec![
                    Span::styled(format!("   {:<18}", keys.join("  ")), self.theme.key),
                    Span::raw(row.help),
                ]));
            }
            lines.push(Line::default());
        }
        lines.push(Line::styled(" On the neck", self.theme.title));
        for text in [
            "[G] is the first triad of the pair, (A) the second; ═ marks the shape in hand",
            "string 1, nearest the floor, is on top; › and ‹ say that the neck goes on",
            "fingers: 1 index to 4 little, 0 open; position: the fret of the first finger",
            "Wide stretches can strain the hand: warm up, rest, and stop when it hurts.",
        ] {
            lines.push(Line::raw(format!("   {text}")));
        }
        lines
    }

    pub(super) fn draw_help(&self, area: Rect, buffer: &mut Buffer, from: usize) {
        let lines = self.help_lines();
        let rows = usize::from(area.height.saturating_sub(1));
        let from = from.min(lines.len().saturating_sub(rows));
        for (line, row) in lines.iter().skip(from).take(rows).zip(0..) {
            write(buffer, below(area, row), line);
        }
        self.draw_list_footer(area, buffer);
    }

    pub(super) fn draw_tunings(&self, area: Rect, buffer: &mut Buffer, marked: usize) {
        write(buffer, area, &Line::styled(" Tunings", self.theme.title));
        let rows = usize::from(area.height.saturating_sub(2));
        let tunings: Vec<_> = self.tunings.iter().collect();
        let from = first_row(marked, rows, tunings.len());
        for ((index, (tuning, _)), row) in tunings.iter().enumerate().skip(from).take(rows).zip(1..)
        {
            let chosen = index == marked;
            let style = if chosen { self.theme.chosen } else { self.theme.text };
            let mark = if chosen { " ▸ " } else { "   " };
            let line = Line::from(vec![
                Span::styled(format!("{mark}{:<28}", tuning.name()), style),
                Span::styled(format!("  {tuning}"), style),
                Span::styled(
                    format!("   {} frets, {} mm", tuning.last_fret(), tuning.scale_mm()),
                    self.theme.muted,
                ),
            ]);
            write(buffer, below(area, row), &line);
        }
        self.draw_list_footer(area, buffer);
    }

    fn draw_list_footer(&self, area: Rect, buffer: &mut Buffer) {
        self.draw_footer(below(area, area.height.saturating_sub(1)), buffer);
    }
}
