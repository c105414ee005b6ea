//! Which keepers are listed, and which of them is marked.

use super::chosen::Chosen;
use super::field::Typed;
use super::state::KeepersScreen;
use crate::store::Keeper;
use crate::tui::shared::Shared;

impl KeepersScreen {
    /// Lists what is asked for of all that is kept now. The mark stays on its keeper; where that is
    /// gone, on the line where it was.
    pub(in crate::tui) fn list_again(&mut self, shared: &Shared) {
        let all = shared.keeping.list();
        self.listed = self.asked().question().among(all);
        let is_marked = |place: &usize| all.get(*place).map(|keeper| keeper.id) == self.marked_id;
        let there = self.marked_id.and_then(|_| self.listed.iter().position(is_marked));
        self.mark(there.unwrap_or(self.at), shared);
    }

    /// What is looked for: while something is typed for that, what is typed so far.
    fn asked(&self) -> Chosen {
        let mut asked = self.chosen.clone();
        let typed = self.field.as_ref().map(|field| (field.what, field.text.text()));
        match typed {
            Some((Typed::Words, words)) => asked.words = words,
            Some((Typed::Kind, serves)) => asked.serves = serves,
            Some((Typed::Name(_) | Typed::Notes(_) | Typed::Tags(_) | Typed::How(_), _)) | None => {
            }
        }
        asked
    }

    /// Marks a line, the last one where there are not so many.
    pub(super) fn mark(&mut self, line: usize, shared: &Shared) {
        self.at = line.min(self.listed.len().saturating_sub(1));
        self.marked_id = self.marked(shared).map(|keeper| keeper.id);
    }

    /// The keeper that is marked.
    pub(super) fn marked<'a>(&self, shared: &'a Shared) -> Option<&'a Keeper> {
        self.on_line(self.at, shared)
    }

    /// The keeper of a line.
    pub(super) fn on_line<'a>(&self, line: usize, shared: &'a Shared) -> Option<&'a Keeper> {
        shared.keeping.list().get(*self.listed.get(line)?)
    }
}
