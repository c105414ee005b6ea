//! Taking changes back, and turning to the pages before and after.

use super::effect::Effect;
use super::state::Program;
use super::step::Step;

use crate::words::counted;

impl Program {
    /// Does something; if it has changed what is chosen, and was not going back or forward itself,
    /// it can be taken back. If it has led to another page, one can turn back to the one before.
    pub(super) fn remembering(
        &mut self,
        doing: impl FnOnce(&mut Program) -> Vec<Effect>,
    ) -> Vec<Effect> {
        let (step, steps) = (self.step(), self.past.steps());
        let (page, pages) = (self.screens.page(), self.pages.steps());
        let basis = self.basis();
        let mut effects = doing(self);
        effects.extend(self.follow_change(basis));
        if self.past.steps() != steps {
            return effects;
        }
        if self.step() != step {
            self.past.record(step);
        }
        if self.pages.steps() == pages && !self.screens.page().is_like(&page) {
            self.pages.record(page);
        }
        effects
    }

    pub(super) fn step(&self) -> Step {
        let (setup, kept) = (self.shared.setup.clone(), self.shared.keeping.done());
        Step { setup, screen: self.screens.chosen(), kept }
    }

    /// Takes the last change back.
    pub(super) fn undo(&mut self) {
        if self.is_writing() {
            return;
        }
        let Some(before) = self.past.back(self.step()) else {
            self.shared.tell("nothing to take back");
            return;
        };
        self.restore(before);
        self.shared.tell(format!("taken back · {} before it", self.past.before()));
    }

    /// Makes again what was taken back last.
    pub(super) fn redo(&mut self) {
        if self.is_writing() {
            return;
        }
        let Some(after) = self.past.forward(self.step()) else {
            self.shared.tell("nothing was taken back");
            return;
        };
        self.restore(after);
        self.shared.tell(format!("made again · {} after it", self.past.after()));
    }

    /// Is something being kept, so that nobody knows yet what is to be taken back? It is said then.
    fn is_writing(&mut self) -> bool {
        let is_busy = self.shared.keeping.is_busy();
        if is_busy {
            self.shared.tell("what is kept is being written: once more in a moment");
        }
        is_busy
    }

    fn restore(&mut self, step: Step) {
        self.shared.restore(step.setup);
        self.screens.restore(step.screen, &mut self.shared);
        self.shared.keeping.go_to(step.kept);
    }

    /// Back to the page before, as it was.
    pub(super) fn page_back(&mut self) {
        match self.pages.back(self.screens.page()) {
            Some(page) => {
                self.screens.turn_to(page, &mut self.shared);
                self.tell_pages();
            }
            None => self.shared.tell("this is the first chord"),
        }
    }

    /// Forward again to the page that was left by going back.
    pub(super) fn page_forward(&mut self) {
        match self.pages.forward(self.screens.page()) {
            Some(page) => {
                self.screens.turn_to(page, &mut self.shared);
                self.tell_pages();
            }
            None => self.shared.tell("this is the last chord"),
        }
    }

    fn tell_pages(&mut self) {
        let (before, after) = (self.pages.before(), self.pages.after());
        self.shared.tell(format!("{} before this one, {after} after it", counted(before, "chord")));
    }
}
