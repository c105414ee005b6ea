//! Drawing the list of tunings: the search, what fits, and what the marked one would mean.

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use ratatui::widgets::Widget;

use super::super::Explore;
use super::super::picker::{Picker, Preview};
use crate::answer::marks;
use crate::picture::NeckPicture;
use crate::tui::widget::{NeckWidget, below, indented, write};

/// ListView of the list that stay before the neck of the marked tuning is drawn under it.
const LEAST_LINES: u16 = 5;

impl Explore {
    pub(super) fn draw_picker(&self, area: Rect, buffer: &mut Buffer, picker: &Picker) {
        let [search, list, preview, neck] = self.picker_areas(area, picker);
        write(buffer, search, &picker.field.line(" Tunings, or type one: ", &self.theme));
        self.draw_offers(area, buffer, picker);
        if picker.offers.is_empty() {
            let none = "   no tuning has that name, and it is no list of notes as D A D G B E";
            write(buffer, list, &Line::styled(none, self.theme.muted));
        }
        if let Some(told) = &picker.preview {
            self.draw_preview(preview, buffer, told);
            NeckWidget::new(&self.preview_picture(told), &self.theme)
                .render(indented(neck), buffer);
        }
        self.draw_list_footer(area, buffer);
    }

    /// Where everything above the footer lies: search, list, what the marked tuning has, its neck.
    pub(super) fn picker_areas(&self, area: Rect, picker: &Picker) -> [Rect; 4] {
        let told = picker.preview.as_ref().map_or(0, |preview| preview.lines.len() as u16 + 1);
        let told = if area.height > told + LEAST_LINES { told } else { 0 };
        let picture = picker.preview.as_ref().map(|preview| self.preview_picture(preview));
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

    fn draw_offers(&self, screen: Rect, buffer: &mut Buffer, picker: &Picker) {
        let strings = picker.offers.iter().map(|tuning| tuning.to_string().chars().count());
        let width = strings.max().unwrap_or_default();
        let line = |index: usize, style: Style| {
            let tuning = picker.offers.get(index)?;
            let typed = self.library.tunings.get(tuning.id()).is_none();
            let name = if typed { "typed" } else { tuning.name() };
            Some(vec![
                Span::styled(format!("{name:<28}"), style),
                Span::styled(format!("  {:<width$}", tuning.to_string()), style),
                Span::styled(
                    format!("   {} frets, {} mm", tuning.last_fret(), tuning.scale_mm()),
                    self.theme.muted,
                ),
            ])
        };
        if let Some(lines) = self.lines_over(screen) {
            lines.draw(buffer, &self.theme, line);
        }
    }

    fn draw_preview(&self, area: Rect, buffer: &mut Buffer, preview: &Preview) {
        let rule = "─".repeat(usize::from(area.width));
        write(buffer, below(area, 0), &Line::styled(rule, self.theme.muted));
        for (line, row) in preview.lines.iter().zip(1..) {
            write(buffer, below(area, row), &Line::styled(format!(" {line}"), self.theme.text));
        }
    }

    fn preview_picture(&self, preview: &Preview) -> NeckPicture {
        self.lying(NeckPicture::new(&preview.neck, marks(&preview.places, self.chosen.labels)))
    }
}
