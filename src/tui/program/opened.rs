//! Opening what was kept, as it was then.

use super::state::Program;
use crate::store::{Keeper, KeptThing, Session};
use crate::tui::screen::Screen;

impl Program {
    /// Brings what was kept to the front, on its instrument and as it stood, whatever has become of
    /// tunings and patterns since. How the player holds the instrument and writes notes stays.
    pub(super) fn open_keeper(&mut self, keeper: &Keeper) {
        let kept = &keeper.kept;
        let screen = kept.screen.as_deref().and_then(Session::of_toml).unwrap_or_default();
        let (screens, shared) = (&mut self.screens, &mut self.shared);
        if let Some(tuning) = &kept.tuning {
            screens.explore.take_instrument(tuning, shared);
        }
        match &kept.what {
            KeptThing::Pair | KeptThing::Shape(_) | KeptThing::Ladder => {
                let is_there = screens.explore.open_kept(kept, screen, shared);
                screens.show(Screen::Explore, shared);
                if !is_there {
                    shared.tell(format!("the chord of keeper {} cannot be read", keeper.id));
                }
            }
            KeptThing::Line(notes) => {
                if screen.line.is_none() {
                    shared.tell("it was kept without the screen that it was made on");
                    return;
                }
                screens.line.take_up(&screen);
                screens.show(Screen::Line, shared);
                if !screens.line.plays(notes) {
                    shared.tell(
                        "made anew it is not quite the line that was kept: practice plays that one",
                    );
                }
            }
            KeptThing::Plan(plan) => {
                screens.changes.open_kept(plan, kept, &screen, shared);
                screens.show(Screen::Changes, shared);
            }
        }
    }
}
