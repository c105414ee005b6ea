//! What lies under the mouse. It is asked of the layout by which the keepers screen is drawn.

use ratatui::layout::Position;

use super::drawing::Drawing;
use super::mode::Mode;
use crate::tui::gesture::Spot;
use crate::tui::key::Key;
use crate::tui::widget::ListLine;

/// Something on the keepers screen that can be pointed at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) enum Hit {
    Keeper(ListLine),
    /// The list beside its lines.
    Keepers,
    /// What may be answered, by its place.
    Choice(usize),
    Footer(Key),
}

impl Hit {
    /// What the table calls it.
    pub(in crate::tui) fn spot(self) -> Spot {
        match self {
            Hit::Keeper(_) => Spot::Keeper,
            Hit::Keepers => Spot::Keepers,
            Hit::Choice(_) => Spot::Choice,
            Hit::Footer(_) => Spot::Footer,
        }
    }
}

impl Drawing<'_> {
    /// What lies at a place of the window.
    pub(in crate::tui) fn hit(&self, place: Position) -> Option<Hit> {
        if let Some(listen) = &self.screen.listen {
            return self.hit_listen(listen, place);
        }
        let window = self.shared.window();
        if let Some(key) = self.footer().key_at(self.footer_area(window), place) {
            return Some(Hit::Footer(key));
        }
        // What is typed is not to be lost by a slip of the mouse.
        if matches!(self.screen.mode, Mode::Practice(_)) || self.screen.field.is_some() {
            return None;
        }
        let areas = self.areas(window)?;
        let line = self.lines(areas.list).at(place);
        let beside = areas.list.contains(place).then_some(Hit::Keepers);
        line.map(Hit::Keeper).or(beside)
    }
}
