//! Bars that are added and taken away.

use super::super::state::ChangesScreen;
use crate::tui::shared::Shared;

impl ChangesScreen {
    /// A bar after this one in which its chord goes on.
    pub(super) fn add_bar(&mut self, shared: &mut Shared) {
        let Some(bar) = self.bar() else { return Self::tell_no_bars(shared) };
        let (after, number) = (bar.written + 1, bar.number);
        // Where it is not certain what stands before it nothing sounds in it.
        let like = self.retype(after..after, "%").or_else(|_| self.retype(after..after, "N.C."));
        match like {
            Ok(()) => {
                if let Some(next) = self.sheet.bars.iter().find(|bar| bar.number == number + 1) {
                    self.cursor = next.cells.start;
                }
            }
            Err(error) => shared.tell(error.to_string()),
        }
    }

    /// This bar is no longer there.
    pub(super) fn take_bar_away(&mut self, shared: &mut Shared) {
        let Some((chart, bar)) = self.chosen.chart().zip(self.bar()) else {
            return Self::tell_no_bars(shared);
        };
        if chart.bars.bars().len() == 1 {
            shared.tell("this is the only bar");
            return;
        }
        let written = bar.written;
        if let Err(error) = self.retype(written..written + 1, "") {
            shared.tell(format!("the form needs this bar: {error}"));
        }
    }

    pub(super) fn tell_no_bars(shared: &mut Shared) {
        shared.tell("there are no bars");
    }
}
