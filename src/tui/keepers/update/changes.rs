//! Opening, removing and moving keepers.

use super::super::state::KeepersScreen;
use super::Way;
use crate::answer::KeeperOrder;
use crate::store::KeeperChange;
use crate::tui::keeping::News;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

impl KeepersScreen {
    /// Opens the keeper that is marked, as it was.
    pub(super) fn open(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.marked(shared).cloned() {
            Some(keeper) => vec![ScreenEffect::Open(Box::new(keeper))],
            None => {
                tell_no_keeper(shared);
                Vec::new()
            }
        }
    }

    /// Has the keeper that is marked removed, as it is seen now.
    pub(super) fn delete(&self, shared: &mut Shared) {
        match self.marked(shared).cloned() {
            Some(keeper) => shared.keeping.remove(keeper),
            None => tell_no_keeper(shared),
        }
    }

    /// Has practice of the keeper that is marked begin so many beats a minute faster.
    pub(super) fn begin_at(&self, faster: i16, shared: &mut Shared) {
        let Some(keeper) = self.marked(shared) else { return tell_no_keeper(shared) };
        let usual = shared.practice.ladder.start;
        let start = keeper.practice.start.unwrap_or(usual).faster(faster);
        shared.keeping.change(keeper.id, KeeperChange::Start(Some(start)));
    }

    /// Has the keeper that is marked put a line down or up.
    pub(super) fn move_by(&self, way: Way, shared: &mut Shared) {
        let Some(id) = self.marked(shared).map(|keeper| keeper.id) else {
            return tell_no_keeper(shared);
        };
        if self.chosen.order != KeeperOrder::Own {
            return shared.tell("the list is sorted: in your own order keepers can be moved");
        }
        let on_line = |line| self.on_line(line, shared).map(|keeper| keeper.id);
        let before = match way {
            Way::Up => self.at.checked_sub(1).and_then(on_line).map(Some),
            // Before the one after the next; at the end, where there is none.
            Way::Down => on_line(self.at + 1).map(|_| on_line(self.at + 2)),
        };
        match before {
            Some(before) => shared.keeping.put_before(id, before),
            None => shared.tell("it stands at the end of the list"),
        }
    }

    /// Lists what is kept now; what something was done with is marked.
    pub(in crate::tui) fn take_news(&mut self, news: &News, shared: &Shared) {
        if news.about.is_some_and(|id| shared.keeping.keeper(id).is_some()) {
            self.marked_id = news.about;
        }
        self.list_again(shared);
    }
}

fn tell_no_keeper(shared: &mut Shared) {
    shared.tell("no keeper is marked");
}
