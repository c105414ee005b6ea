//! What lies under the mouse. It is asked of the layout by which the changes screen is drawn.

use ratatui::layout::{Position, Rect};

use super::drawing::Drawing;
use crate::tui::gesture::Spot;
use crate::tui::key::Key;
use crate::tui::widget::{ListLine, ListView, list_footer};

/// Something on the changes screen that can be pointed at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) enum Hit {
    /// The part of a bar with this index.
    Cell(usize),
    /// The bars beside them.
    Bars,
    /// The scale, the pair or the plan with this index of those that are listed.
    Scale(usize),
    Pair(usize),
    Plan(usize),
    Line(ListLine),
    /// A list laid over the screen, beside its lines.
    List,
    Footer(Key),
}

impl Hit {
    /// What the table calls it.
    pub(in crate::tui) fn spot(self) -> Spot {
        match self {
            Hit::Cell(_) => Spot::Bar,
            Hit::Bars => Spot::Bars,
            Hit::Scale(_) | Hit::Pair(_) | Hit::Plan(_) => Spot::Listed,
            Hit::Line(_) => Spot::Line,
            Hit::List => Spot::List,
            Hit::Footer(_) => Spot::Footer,
        }
    }
}

impl Drawing<'_> {
    /// What lies at a place of the window.
    pub(in crate::tui) fn hit(&self, place: Position) -> Option<Hit> {
        let screen = self.shared.window();
        if let Some(lines) = self.chart_lines(screen) {
            return self.hit_list(screen, place, lines);
        }
        if let Some(key) = self.footer().key_at(self.footer_area(screen), place) {
            return Some(Hit::Footer(key));
        }
        // What is typed is not to be lost by a slip of the mouse.
        if self.screen.field.is_some() {
            return None;
        }
        if let Some(listed) = self.listed_at(screen, place) {
            return Some(listed);
        }
        let bars = self.bars_in_sight(screen)?;
        bars.contains(place).then(|| self.cell_at(bars, place).map_or(Hit::Bars, Hit::Cell))
    }

    /// All of a list is one spot down to its footer, in which only the keys are spots.
    fn hit_list(&self, screen: Rect, place: Position, lines: ListView) -> Option<Hit> {
        let [keys, _] = list_footer(screen, &lines.place_in_words());
        if let Some(key) = self.list_keys().key_at(keys, place) {
            return Some(Hit::Footer(key));
        }
        let above_footer = Rect { height: screen.height.saturating_sub(1), ..screen };
        above_footer.contains(place).then(|| lines.at(place).map_or(Hit::List, Hit::Line))
    }
}
