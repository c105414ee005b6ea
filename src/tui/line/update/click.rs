//! What a click does to the line screen.

use super::super::hit::Hit;
use super::super::state::LineScreen;
use crate::tui::screen::ScreenEffect;

impl LineScreen {
    /// Takes what lies under the mouse.
    pub(in crate::tui) fn click(&mut self, hit: Hit) -> Vec<ScreenEffect> {
        match hit {
            Hit::Footer(key) => return vec![ScreenEffect::Press(key)],
            Hit::Note(index) => self.cursor = index,
            Hit::Tab => {}
        }
        Vec::new()
    }
}
