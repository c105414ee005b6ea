//! The state of the keepers screen.

use super::chosen::{Chosen, Page};
use super::field::Field;
use super::listen::Listen;
use super::mode::Mode;
use crate::store::KeeperId;
use crate::tui::command::{Command, ListenCommand, PracticeCommand, Section};
use crate::tui::screen::Screen;
use crate::tui::shared::Shared;

/// The keepers screen: what was kept.
pub struct KeepersScreen {
    pub(super) chosen: Chosen,
    /// What is listed, by its place among all keepers.
    pub(super) listed: Vec<usize>,
    /// Which line is marked.
    pub(super) at: usize,
    /// Its keeper, which the mark stays on.
    pub(super) marked_id: Option<KeeperId>,
    /// The screen from which one came, to go back to.
    pub(super) from: Screen,
    /// What is asked by ear, while anything is.
    pub(super) listen: Option<Listen>,
    pub(super) mode: Mode,
    pub(super) field: Option<Field>,
}

impl KeepersScreen {
    /// The screen before anybody has been there.
    pub(in crate::tui) fn new() -> KeepersScreen {
        KeepersScreen {
            chosen: Chosen::default(),
            listed: Vec::new(),
            at: 0,
            marked_id: None,
            from: Screen::Explore,
            listen: None,
            mode: Mode::List,
            field: None,
        }
    }

    /// Comes to the front from another screen. The file is read, since others may have kept something.
    pub(in crate::tui) fn resume(&mut self, from: Option<Screen>, shared: &mut Shared) {
        self.from = from.unwrap_or(self.from);
        self.field = None;
        if let (Mode::Practice(practice), Some(_)) = (&mut self.mode, from) {
            practice.pause();
        }
        shared.keeping.read();
        self.list_again(shared);
    }

    /// The screen to go back to.
    pub(in crate::tui) fn before(&self) -> Screen {
        self.from
    }

    /// What is chosen now, to be taken back to.
    pub(in crate::tui) fn chosen(&self) -> &Chosen {
        &self.chosen
    }

    /// Chooses all this again.
    pub(in crate::tui) fn restore(&mut self, chosen: Chosen, shared: &mut Shared) {
        self.chosen = chosen;
        self.resume(None, shared);
    }

    /// The list, as it can be turned back to.
    pub(in crate::tui) fn page(&self) -> Page {
        Page { chosen: self.chosen.clone() }
    }

    /// Turns to the list.
    pub(in crate::tui) fn turn_to(&mut self, page: Page, shared: &mut Shared) {
        self.restore(page.chosen, shared);
    }

    /// Where keys are pressed now.
    pub(in crate::tui) fn section(&self) -> Section {
        if self.field.is_some() { Section::Typing } else { self.own_section() }
    }

    /// The section of what the screen is used for now.
    pub(in crate::tui) fn own_section(&self) -> Section {
        match (&self.listen, &self.mode) {
            (Some(_), _) => Section::Listen,
            (None, Mode::List) => Section::Keepers,
            (None, Mode::Practice(_)) => Section::Practice,
        }
    }

    /// What plays here, if anything does.
    pub(in crate::tui) fn play(&self) -> Option<Command> {
        match (&self.listen, &self.mode) {
            (Some(_), _) => Some(Command::Listen(ListenCommand::HearAgain)),
            (None, Mode::Practice(_)) => Some(Command::Practice(PracticeCommand::GoOn)),
            (None, Mode::List) => None,
        }
    }
}
