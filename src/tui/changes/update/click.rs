//! What a click does to the changes screen.

use super::super::hit::Hit;
use super::super::state::ChangesScreen;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

impl ChangesScreen {
    /// Takes what lies under the mouse.
    pub(in crate::tui) fn click(&mut self, hit: Hit, shared: &mut Shared) -> Vec<ScreenEffect> {
        match hit {
            Hit::Footer(key) => return vec![ScreenEffect::Press(key)],
            Hit::Cell(cell) => self.cursor = cell,
            Hit::Scale(index) => self.take_scale(index, shared),
            Hit::Pair(index) => self.take_pair(index, shared),
            Hit::Plan(index) => self.chosen.plan = index,
            Hit::Line(line) => self.click_line(line, shared),
            Hit::Bars | Hit::List => {}
        }
        Vec::new()
    }
}
