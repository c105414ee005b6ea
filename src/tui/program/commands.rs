//! What the program does itself, whichever screen is in front.

use super::effect::Effect;
use super::overlay::Overlay;
use super::state::Program;
use crate::glyphs::to_ascii;
use crate::sound::Track;
use crate::store::NewKeeper;
use crate::tui::clipboard::Clip;
use crate::tui::command::ProgramCommand;
use crate::tui::key::Glyphs;
use crate::tui::mouse::Mouse;

use crate::tui::widget::Search;

impl Program {
    pub(super) fn perform(&mut self, command: ProgramCommand) -> Vec<Effect> {
        match command {
            ProgramCommand::Help => self.overlay = Some(Overlay::Help(Search::new())),
            ProgramCommand::Palette => self.overlay = Some(Overlay::Palette(Search::new())),
            ProgramCommand::Undo => self.undo(),
            ProgramCommand::Redo => self.redo(),
            ProgramCommand::Back => self.page_back(),
            ProgramCommand::Forward => self.page_forward(),
            ProgramCommand::Sound => return self.open_sound_page(),
            ProgramCommand::Keep => self.keep(self.screens.to_keep(&self.shared)),
            ProgramCommand::Keepers => self.screens.show_keepers(&mut self.shared),
            ProgramCommand::SilenceLine => self.change_mute(Track::Line),
            ProgramCommand::SilenceDrone => self.change_mute(Track::Drone),
            ProgramCommand::SilenceClick => self.change_mute(Track::Click),
            ProgramCommand::FreeMouse => self.change_mouse(),
            ProgramCommand::Quit | ProgramCommand::QuitAtOnce => return vec![Effect::Quit],
            ProgramCommand::Suspend => return vec![Effect::Suspend],
        }
        Vec::new()
    }

    /// Keeps something. It is told once it is on the disk.
    pub(super) fn keep(&mut self, new: Option<NewKeeper>) {
        match new {
            Some(_) if !self.shared.keeping.has_folder() => {
                self.shared.tell(
                    "there is no folder for what is kept, expected XDG_DATA_HOME to name one",
                );
            }
            Some(new) => self.shared.keeping.keep(new),
            None => self.shared.tell("there is nothing here that could be kept"),
        }
    }

    /// Takes the mouse, or frees it so that the terminal selects text with it.
    fn change_mouse(&mut self) {
        let (mouse, told) = match self.shared.mouse {
            Mouse::Taken => (Mouse::Free, "the mouse selects text"),
            Mouse::Free => (Mouse::Taken, "the mouse chooses what it points at"),
        };
        self.shared.mouse = mouse;
        self.shared.tell(told);
    }

    /// Copies a text, and says so; `what` it is.
    pub(super) fn copy(&mut self, text: String, what: &str) -> Vec<Effect> {
        let text = match self.shared.glyphs {
            Glyphs::Unicode => text,
            Glyphs::Ascii => to_ascii(&text),
        };
        let lines = text.lines().count();
        let Some(clip) = Clip::new(text) else {
            let longest = Clip::LONGEST;
            self.shared.tell(format!("{what} is longer than the {longest} bytes that are copied"));
            return Vec::new();
        };
        self.shared.tell(format!("copied {what}, {lines} lines"));
        vec![Effect::Copy(clip)]
    }
}
