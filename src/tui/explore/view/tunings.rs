//! Drawing the list of tunings: the search, what fits, and what the marked one would mean.

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use ratatui::widgets::Widget;

use super::super::drawing::Drawing;
use super::super::tuning_list::{Preview, TuningList};
use crate::answer::marks;
use crate::picture::NeckPicture;
use crate::tui::widget::{NeckWidget, below, indented, write};

/// Lines of the list that stay before the neck of the marked tuning is drawn under it.
const LEAST_LINES: u16 = 5;

impl Drawing<'_> {
    pub(super) fn draw_tunings(&self, area: Rect, buffer: &mut Buffer, tunings: &TuningList) {
        let [search, list, preview, neck] = self.tunings_areas(area, tunings);
        write(buffer, search, &tunings.field.line(" Tunings, or type one: ", &self.shared.theme));
        self.draw_offers(area, buffer, tunings);
        if tunings.offers.is_empty() {
            let none = "   no tuning has that name, and it is no list of notes as D A D G B E";
            write(buffer, list, &Line::styled(none, self.shared.theme.muted));
        }
        if let Some(told) = &tunings.preview {
            self.draw_preview(preview, buffer, told);
            NeckWidget::new(&self.preview_picture(told), &self.shared.theme)
                .render(indented(neck), buffer);
        }
        self.draw_list_footer(area, buffer);
    }

    /// Where everything above the footer lies: search, list, what the marked tuning has, its neck.
    pub(super) fn tunings_areas(&self, area: Rect, tunings: &TuningList) -> [Rect; 4] {
        let told = tunings.preview.as_ref().map_or(0, |preview| preview.lines.len() as u16 + 1);
        let told = if area.height > told + LEAST_LINES { told } else { 0 };
        let picture = tunings.preview.as_ref().map(|preview| self.preview_picture(preview));
        let neck = picture.map_or(0, |picture| picture.height());
        let neck = if area.height >= 2 + LEAST_LINES + told + neck { neck } else { 0 };
        let [search, list, preview, below, _footer] = area.layout(&Layout::vertical([
            Constraint::Length(1),
            Constraint::Fill(1),
            Constraint::Length(told),
            Constraint::Length(neck),
            Constraint::Length(1),
        ]));
        [search, list, preview, below]
    }

    fn draw_offers(&self, screen: Rect, buffer: &mut Buffer, tunings: &TuningList) {
        let strings = tunings.offers.iter().map(|tuning| tuning.to_string().chars().count());
        let width = strings.max().unwrap_or_default();
        let line = |index: usize, style: Style| {
            let tuning = tunings.offers.get(index)?;
            let typed = !self.shared.is_known(tuning);
            let name = if typed { "typed" } else { tuning.name() };
            Some(vec![
                Span::styled(format!("{name:<28}"), style),
                Span::styled(format!("  {:<width$}", tuning.to_string()), style),
                Span::styled(
                    format!("   {} frets, {} mm", tuning.last_fret(), tuning.scale_mm()),
                    self.shared.theme.muted,
                ),
            ])
        };
        if let Some(lines) = self.lines_over(screen) {
            lines.draw(buffer, &self.shared.theme, line);
        }
    }

    fn draw_preview(&self, area: Rect, buffer: &mut Buffer, preview: &Preview) {
        let rule = "─".repeat(usize::from(area.width));
        write(buffer, below(area, 0), &Line::styled(rule, self.shared.theme.muted));
        for (line, row) in preview.lines.iter().zip(1..) {
            write(
                buffer,
                below(area, row),
                &Line::styled(format!(" {line}"), self.shared.theme.text),
            );
        }
    }

    fn preview_picture(&self, preview: &Preview) -> NeckPicture {
        self.shared.lying(NeckPicture::new(
            &preview.neck,
            marks(&preview.places, self.explore.chosen.labels),
        ))
    }
}
