//! Every screen there is, and which of them is in front.
//!
//! To add a screen: a field, a variant of [`Screen`], [`Chosen`], [`Page`] and [`Hit`]; the compiler
//! then asks for one branch in each of the functions below.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::library::{ChartFile, ReadChart};
use crate::settings::Settings;
use crate::store::{NewKeeper, Session};
use crate::tui::changes::{self, ChangesScreen};
use crate::tui::command::{ListCommand, Section, TypingCommand};
use crate::tui::explore::{self, Drawing, Explore};
use crate::tui::found::Found;
use crate::tui::gesture::Spot;
use crate::tui::keepers::{self, KeepersScreen};
use crate::tui::key::Key;
use crate::tui::line::{self, LineScreen};
use crate::tui::line_place::{ChordSeed, LineSeed};
use crate::tui::runtime::Job;
use crate::tui::screen::{Screen, ScreenEffect};
use crate::tui::shared::Shared;

/// The screens, all of them open: one that is left is as it was when one comes back.
pub(super) struct Screens {
    pub(super) explore: Explore,
    pub(super) line: LineScreen,
    pub(super) changes: ChangesScreen,
    pub(super) keepers: KeepersScreen,
    front: Screen,
}

/// What is chosen on a screen.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Chosen {
    Explore(explore::Chosen),
    Line(line::Chosen),
    Changes(changes::Chosen),
    Keepers(keepers::Chosen),
}

/// What a screen was turned to, so that one can turn back to it.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Page {
    Explore(explore::Page),
    Line(line::Page),
    Changes(changes::Page),
    Keepers(keepers::Page),
}

/// What lies under the mouse on a screen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Hit {
    Explore(explore::Hit),
    Line(line::Hit),
    Changes(changes::Hit),
    Keepers(keepers::Hit),
}

/// The line screen in a session.
const LINE: &str = "line";
/// The changes screen there.
const CHANGES: &str = "changes";
/// The keepers screen there.
const KEEPERS: &str = "keepers";

impl Screens {
    /// All screens, the explorer in front.
    pub(super) fn new(explore: Explore) -> Screens {
        let (line, changes) = (LineScreen::new(), ChangesScreen::new());
        let keepers = KeepersScreen::new();
        Screens { explore, line, changes, keepers, front: Screen::Explore }
    }

    /// Which screen is in front.
    pub(super) fn front(&self) -> Screen {
        self.front
    }

    /// The own section of the screen in front.
    pub(super) fn own_section(&self) -> Section {
        match self.front {
            Screen::Explore => Section::Explore,
            Screen::Line => Section::Line,
            Screen::Changes => Section::Changes,
            Screen::Keepers => self.keepers.own_section(),
        }
    }

    /// Where keys are pressed now: on the screen in front, or in what it has laid over itself.
    pub(super) fn section(&self) -> Section {
        match self.front {
            Screen::Explore => self.explore.section(),
            Screen::Line => self.line.section(),
            Screen::Changes => self.changes.section(),
            Screen::Keepers => self.keepers.section(),
        }
    }

    /// What the help page says of the screen in front beside its keys.
    pub(super) fn notes(&self) -> &'static [(&'static str, &'static [&'static str])] {
        match self.front {
            Screen::Explore => explore::NOTES,
            Screen::Line => line::NOTES,
            Screen::Changes => changes::NOTES,
            Screen::Keepers => keepers::NOTES,
        }
    }

    /// Forgets what is shown only until the next key.
    pub(super) fn begin(&mut self) {
        match self.front {
            Screen::Explore => self.explore.forget_changes(),
            Screen::Line | Screen::Changes | Screen::Keepers => {}
        }
    }

    pub(super) fn update_list(&mut self, command: ListCommand, shared: &mut Shared) {
        match self.front {
            Screen::Explore => self.explore.update_list(command, shared),
            Screen::Changes => self.changes.update_list(command, shared),
            // They have no lists laid over them.
            Screen::Line | Screen::Keepers => {}
        }
    }

    pub(super) fn update_field(&mut self, command: TypingCommand, shared: &mut Shared) {
        match self.front {
            Screen::Explore => self.explore.update_field(command, shared),
            Screen::Line => self.line.update_field(command, shared),
            Screen::Changes => self.changes.update_field(command, shared),
            Screen::Keepers => self.keepers.update_field(command, shared),
        }
    }

    /// Types a key that stands for no command, where something is typed.
    pub(super) fn type_key(&mut self, key: Key, shared: &Shared) {
        match self.front {
            Screen::Explore => self.explore.type_key(key, shared),
            Screen::Line => self.line.type_key(key),
            Screen::Changes => self.changes.type_key(key),
            Screen::Keepers => self.keepers.type_key(key, shared),
        }
    }

    /// Types a pasted text, where something is typed.
    pub(super) fn paste(&mut self, text: &str, shared: &Shared) {
        match self.front {
            Screen::Explore => self.explore.paste(text, shared),
            Screen::Line => self.line.paste(text),
            Screen::Changes => self.changes.paste(text),
            Screen::Keepers => self.keepers.paste(text, shared),
        }
    }

    /// What lies at a place of the window.
    pub(super) fn hit(&self, place: Position, shared: &Shared) -> Option<Hit> {
        match self.front {
            Screen::Explore => Drawing::new(&self.explore, shared).hit(place).map(Hit::Explore),
            Screen::Line => line::Drawing::new(&self.line, shared).hit(place).map(Hit::Line),
            Screen::Changes => {
                changes::Drawing::new(&self.changes, shared).hit(place).map(Hit::Changes)
            }
            Screen::Keepers => {
                keepers::Drawing::new(&self.keepers, shared).hit(place).map(Hit::Keepers)
            }
        }
    }

    /// Takes what was clicked.
    pub(super) fn click(&mut self, hit: Hit, shared: &mut Shared) -> Vec<ScreenEffect> {
        match hit {
            Hit::Explore(hit) => self.explore.click(hit, shared),
            Hit::Line(hit) => self.line.click(hit),
            Hit::Changes(hit) => self.changes.click(hit, shared),
            Hit::Keepers(hit) => self.keepers.click(hit, shared),
        }
    }

    pub(super) fn draw(&self, area: Rect, buffer: &mut Buffer, shared: &Shared) {
        match self.front {
            Screen::Explore => Drawing::new(&self.explore, shared).draw(area, buffer),
            Screen::Line => line::Drawing::new(&self.line, shared).draw(area, buffer),
            Screen::Changes => {
                changes::Drawing::new(&self.changes, shared).draw(area, buffer);
            }
            Screen::Keepers => {
                keepers::Drawing::new(&self.keepers, shared).draw(area, buffer);
            }
        }
    }

    /// What is chosen on the screen in front.
    pub(super) fn chosen(&self) -> Chosen {
        match self.front {
            Screen::Explore => Chosen::Explore(self.explore.chosen().clone()),
            Screen::Line => Chosen::Line(self.line.chosen().clone()),
            Screen::Changes => Chosen::Changes(self.changes.chosen().clone()),
            Screen::Keepers => Chosen::Keepers(self.keepers.chosen().clone()),
        }
    }

    /// Chooses all this again, on the screen where it was chosen.
    pub(super) fn restore(&mut self, chosen: Chosen, shared: &mut Shared) {
        match chosen {
            Chosen::Explore(chosen) => {
                self.front = Screen::Explore;
                self.explore.restore(chosen, shared);
            }
            Chosen::Line(chosen) => {
                self.front = Screen::Line;
                self.line.restore(chosen, shared);
            }
            Chosen::Changes(chosen) => {
                self.front = Screen::Changes;
                self.changes.restore(chosen, shared);
            }
            Chosen::Keepers(chosen) => {
                self.front = Screen::Keepers;
                self.keepers.restore(chosen, shared);
            }
        }
    }

    /// What the screen in front is turned to.
    pub(super) fn page(&self) -> Page {
        match self.front {
            Screen::Explore => Page::Explore(self.explore.page()),
            Screen::Line => Page::Line(self.line.page()),
            Screen::Changes => Page::Changes(self.changes.page()),
            Screen::Keepers => Page::Keepers(self.keepers.page()),
        }
    }

    /// Turns to a page, on its screen.
    pub(super) fn turn_to(&mut self, page: Page, shared: &mut Shared) {
        match page {
            Page::Explore(page) => {
                self.front = Screen::Explore;
                self.explore.turn_to(page, shared);
            }
            Page::Line(page) => {
                self.front = Screen::Line;
                self.line.turn_to(page, shared);
            }
            Page::Changes(page) => {
                self.front = Screen::Changes;
                self.changes.turn_to(page, shared);
            }
            Page::Keepers(page) => {
                self.front = Screen::Keepers;
                self.keepers.turn_to(page, shared);
            }
        }
    }

    /// Brings a screen to the front, as it was left.
    pub(super) fn show(&mut self, screen: Screen, shared: &mut Shared) {
        let before = std::mem::replace(&mut self.front, screen);
        match screen {
            Screen::Explore => self.explore.resize(shared),
            Screen::Line => self.line.resume(shared),
            Screen::Changes => self.changes.resume(shared),
            Screen::Keepers => {
                let from = (before != Screen::Keepers).then_some(before);
                self.keepers.resume(from, shared);
            }
        }
    }

    /// Brings the keepers to the front; from there, the screen before.
    pub(super) fn show_keepers(&mut self, shared: &mut Shared) {
        let next = match self.front {
            Screen::Keepers => self.keepers.before(),
            Screen::Explore | Screen::Line | Screen::Changes => Screen::Keepers,
        };
        self.show(next, shared);
    }

    /// Brings a tune to the front.
    pub(super) fn show_tune(&mut self, tune: ReadChart, file: Option<ChartFile>, shared: &Shared) {
        self.front = Screen::Changes;
        self.changes.open(tune, file, shared);
    }

    /// Brings a chord with its scale and its pair to the front.
    pub(super) fn show_chord(&mut self, chord: &ChordSeed, shared: &mut Shared) {
        self.front = Screen::Explore;
        self.explore.explore(chord, shared);
    }

    /// Brings the line of a pair to the front.
    pub(super) fn show_line(&mut self, seed: &LineSeed, shared: &mut Shared) {
        self.front = Screen::Line;
        self.line.open(seed, shared);
    }

    /// What is kept of what the screen in front shows.
    pub(super) fn to_keep(&self, shared: &Shared) -> Option<NewKeeper> {
        match self.front {
            Screen::Explore => self.explore.to_keep(shared),
            Screen::Line => self.line.to_keep(shared),
            Screen::Changes => self.changes.to_keep(shared),
            Screen::Keepers => None,
        }
    }

    /// What the screen in front wants to be worked out, read or written.
    pub(super) fn jobs(&mut self, shared: &Shared) -> Vec<Job<Found>> {
        match self.front {
            Screen::Changes => self.changes.jobs(shared).collect(),
            Screen::Line => self.line.jobs().collect(),
            Screen::Explore | Screen::Keepers => Vec::new(),
        }
    }

    /// The window has another size. Every screen is told, also those behind.
    pub(super) fn resize(&mut self, shared: &Shared) {
        self.explore.resize(shared);
    }

    /// Begins as the player has settled it.
    pub(super) fn use_settings(&mut self, settings: &Settings, shared: &Shared) {
        self.explore.use_settings(settings, shared);
    }

    /// Writes what is chosen on every screen into a session.
    pub(super) fn keep(&self, session: &mut Session) {
        self.explore.keep(session);
        self.line.keep(session);
        self.changes.keep(session);
        self.keepers.keep(session);
        session.screen = match self.front {
            Screen::Explore => None,
            Screen::Line => Some(LINE.to_owned()),
            Screen::Changes => Some(CHANGES.to_owned()),
            Screen::Keepers => Some(KEEPERS.to_owned()),
        };
    }

    /// Takes up what was kept of every screen.
    pub(super) fn take_up(&mut self, session: &Session, shared: &mut Shared) {
        self.explore.take_up(session, shared);
        self.line.take_up(session);
        self.changes.take_up(session, shared);
        self.keepers.take_up(session);
        if session.screen.as_deref() == Some(LINE) && self.line.was_asked_for() {
            self.show(Screen::Line, shared);
        }
        if session.screen.as_deref() == Some(CHANGES) {
            self.show(Screen::Changes, shared);
        }
        if session.screen.as_deref() == Some(KEEPERS) {
            self.show(Screen::Keepers, shared);
        }
    }
}

impl Page {
    /// Is it the same to someone who turns pages, whatever has changed on it?
    pub(super) fn is_like(&self, other: &Page) -> bool {
        match self {
            Page::Explore(page) => matches!(other, Page::Explore(other) if page.is_like(other)),
            Page::Line(page) => matches!(other, Page::Line(other) if page.is_like(other)),
            Page::Changes(page) => matches!(other, Page::Changes(other) if page.is_like(other)),
            Page::Keepers(page) => matches!(other, Page::Keepers(other) if page.is_like(other)),
        }
    }
}

impl Hit {
    /// What the table of gestures calls it.
    pub(super) fn spot(self) -> Spot {
        match self {
            Hit::Explore(hit) => hit.spot(),
            Hit::Line(hit) => hit.spot(),
            Hit::Changes(hit) => hit.spot(),
            Hit::Keepers(hit) => hit.spot(),
        }
    }
}
