//! Beginning to practise, and what becomes of it.

use fretloom_theory::Quarters;

use super::super::mode::Mode;
use super::super::practice::Practice;
use super::super::state::KeepersScreen;
use crate::tui::command::PracticeCommand;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::sound::Piece;

impl KeepersScreen {
    /// Begins with the list of today.
    pub(super) fn practise_today(&mut self, shared: &mut Shared) {
        if shared.keeping.has_folder() && !shared.keeping.was_read() {
            return shared.tell("what is kept is being read: once more in a moment");
        }
        let practice = Practice::of_today(shared);
        if practice.turns.is_empty() {
            practice.end(shared);
            shared.tell(if shared.keeping.list().is_empty() {
                "nothing is kept that could be practised"
            } else {
                "nothing is due today: what is marked can be practised by itself"
            });
            return;
        }
        self.mode = Mode::Practice(Box::new(practice));
    }

    /// Begins with the keeper that is marked.
    pub(super) fn practise_marked(&mut self, shared: &mut Shared) {
        match self.marked(shared).cloned() {
            Some(keeper) => {
                self.mode = Mode::Practice(Box::new(Practice::of_one(&keeper, shared)));
            }
            None => shared.tell("no keeper is marked"),
        }
    }

    /// Does what a command asks for while something is practised.
    pub(in crate::tui) fn update_practice(
        &mut self,
        command: PracticeCommand,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        let Mode::Practice(practice) = &mut self.mode else { return Vec::new() };
        let leaves = command == PracticeCommand::Leave
            || (command == PracticeCommand::GoOn && practice.is_over());
        if leaves {
            let effects = practice.end(shared);
            self.mode = Mode::List;
            self.list_again(shared);
            return effects;
        }
        practice.update(command, shared)
    }

    /// Hears which moment of a try sounds.
    pub(in crate::tui) fn follow(&mut self, moment: Quarters) {
        if let Mode::Practice(practice) = &mut self.mode {
            practice.follow(moment);
        }
    }

    /// What was tried has sounded to its end.
    pub(in crate::tui) fn run_out(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match &mut self.mode {
            Mode::Practice(practice) => practice.run_out(shared),
            Mode::List => Vec::new(),
        }
    }

    /// The try as it is to be heard.
    pub(in crate::tui) fn piece(&self) -> Option<Piece> {
        match &self.mode {
            Mode::Practice(practice) => practice.piece(),
            Mode::List => None,
        }
    }

    /// Which moment of a try is heard, for whoever looks whether anything is to be drawn.
    pub(in crate::tui) fn moment(&self) -> Option<Quarters> {
        match &self.mode {
            Mode::Practice(practice) => practice.moment(),
            Mode::List => None,
        }
    }
}
