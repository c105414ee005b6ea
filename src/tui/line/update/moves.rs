//! From note to note.

use super::super::cycles::Way;
use super::super::made::Made;
use super::super::state::LineScreen;
use crate::tui::shared::Shared;

impl LineScreen {
    pub(super) fn step(&mut self, way: Way, shared: &mut Shared) {
        let last = self.notes().len().saturating_sub(1);
        let next = match way {
            Way::Next => (self.cursor + 1).min(last),
            Way::Before => self.cursor.saturating_sub(1),
        };
        if next == self.cursor {
            shared.tell(match way {
                Way::Next => "this is the last note",
                Way::Before => "this is the first note",
            });
        }
        self.cursor = next;
    }

    /// To the first note of the next bar in which one begins; back to the first of this bar, then of
    /// the one before.
    pub(super) fn step_bar(&mut self, way: Way, shared: &mut Shared) {
        let Some(made) = self.made() else { return };
        let here = made.in_bar_of(self.cursor);
        let (first, last) = (here.first().copied(), here.last().copied());
        let next = match way {
            Way::Next => last.map(|last| last + 1).filter(|next| *next < made.notes().len()),
            Way::Before => first.and_then(|first| first_of_bar_before(made, first, self.cursor)),
        };
        match next {
            Some(next) => self.cursor = next,
            None => self.step(way, shared),
        }
    }
}

fn first_of_bar_before(made: &Made, first: usize, cursor: usize) -> Option<usize> {
    if first < cursor {
        return Some(first);
    }
    made.in_bar_of(first.checked_sub(1)?).first().copied()
}
