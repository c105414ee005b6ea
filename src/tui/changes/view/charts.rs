//! Drawing the list of tunes.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::chart_list::{ChartList, Offer};
use super::super::drawing::Drawing;
use crate::glyphs::printable_line;
use crate::tui::command::Section;
use crate::tui::gesture::Spot;
use crate::tui::widget::{
    Footer, ListView, below, broken, cut_to, indented, list_footer, list_rows, write,
};

impl Drawing<'_> {
    /// The lines of the list, if it is open. What there is to tell has the row above the footer.
    pub(in crate::tui::changes) fn chart_lines(&self, screen: Rect) -> Option<ListView> {
        let list = self.screen.list.as_ref()?;
        let rows = list_rows(screen);
        let told = self.told_of_file(screen).len() as u16;
        Some(ListView {
            area: Rect { height: rows.height.saturating_sub(told), ..rows },
            marked: list.search.at,
            count: list.offers(self.shared).len(),
            pointed_at: self.shared.clicked(Spot::Line),
        })
    }

    pub(super) fn draw_charts(&self, area: Rect, buffer: &mut Buffer, list: &ChartList) {
        let theme = &self.shared.theme;
        let label = " Tunes, or type the name of a file: ";
        write(buffer, area, &list.search.field.line_within(label, theme, area.width));
        let offers = list.offers(self.shared);
        let line = |index: usize, style: Style| {
            let (name, whence) = match offers.get(index)? {
                Offer::Known(known) => (known.id.replace('-', " "), known.source.to_string()),
                Offer::File(name) => (name.clone(), "the file of that name".to_owned()),
            };
            Some(vec![
                Span::styled(format!("{:<36}  ", printable_line(&name)), style),
                Span::styled(printable_line(&whence), theme.muted),
            ])
        };
        let Some(lines) = self.chart_lines(area) else { return };
        lines.draw(buffer, theme, line);
        let told = self.told_of_file(area);
        let first = area.height.saturating_sub(1 + told.len() as u16);
        for (line, row) in told.into_iter().zip(first..) {
            write(buffer, indented(below(area, row)), &Line::styled(line, theme.error));
        }
        let place = lines.place_in_words();
        let [keys, right] = list_footer(area, &place);
        self.list_keys().draw(keys, buffer);
        write(buffer, right, &Line::styled(place, theme.muted));
    }

    /// Why a file was not opened, in a few rows above the footer.
    fn told_of_file(&self, screen: Rect) -> Vec<String> {
        let notice = self.shared.notice.as_deref().unwrap_or_default();
        let rows = usize::from(screen.height.saturating_sub(4)).min(3);
        let lines = if notice.is_empty() {
            Vec::new()
        } else {
            broken(notice, screen.width.saturating_sub(1))
        };
        cut_to(lines, rows)
    }

    /// The keys of the list.
    pub(in crate::tui::changes) fn list_keys(&self) -> Footer<'_> {
        self.shared.footer(Section::Picking, None)
    }
}
