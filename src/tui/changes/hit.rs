//! What lies under the mouse. It is asked of the layout by which the changes screen is drawn.

use ratatui::layout::Position;

use super::drawing::Drawing;
use crate::tui::gesture::Spot;
use crate::tui::key::Key;

/// Something on the changes screen that can be pointed at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) enum Hit {
    /// The part of a bar with this index.
    Cell(usize),
    /// The bars beside them.
    Bars,
    Footer(Key),
}

impl Hit {
    /// What the table calls it.
    pub(in crate::tui) fn spot(self) -> Spot {
        match self {
            Hit::Cell(_) => Spot::Bar,
            Hit::Bars => Spot::Bars,
            Hit::Footer(_) => Spot::Footer,
        }
    }
}

impl Drawing<'_> {
    /// What lies at a place of the window.
    pub(in crate::tui) fn hit(&self, place: Position) -> Option<Hit> {
        let screen = self.shared.window();
        if let Some(key) = self.footer().key_at(self.footer_area(screen), place) {
            return Some(Hit::Footer(key));
        }
        // What is typed is not to be lost by a slip of the mouse.
        if self.screen.field.is_some() {
            return None;
        }
        let bars = self.bars_in_sight(screen)?;
        bars.contains(place).then(|| self.cell_at(bars, place).map_or(Hit::Bars, Hit::Cell))
    }
}
