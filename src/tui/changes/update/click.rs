//! What a click does to the changes screen.

use super::super::hit::Hit;
use super::super::state::ChangesScreen;
use crate::tui::screen::ScreenEffect;

impl ChangesScreen {
    /// Takes what lies under the mouse.
    pub(in crate::tui) fn click(&mut self, hit: Hit) -> Vec<ScreenEffect> {
        match hit {
            Hit::Footer(key) => return vec![ScreenEffect::Press(key)],
            Hit::Cell(cell) => self.cursor = cell,
            Hit::Bars => {}
        }
        Vec::new()
    }
}
