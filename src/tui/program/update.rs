//! What keys, the mouse, pasted text and a new size do.

use jiff::ZonedDateTime;
use ratatui::Frame;
use ratatui::layout::{Position, Rect, Size};

use super::effect::Effect;
use super::overlay::Overlay;
use super::screens::{Hit as ScreenHit, Screens};
use super::state::Program;
use crate::tui::Found;
use crate::tui::command::{Command, ListCommand, ProgramCommand, Section};
use crate::tui::event::Event;
use crate::tui::gesture::{Act, Gesture, Spot};
use crate::tui::key::Key;
use crate::tui::mouse::{Mouse, Pointer};
use crate::tui::runtime::App;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::widget::ListLine;

/// What lies under the mouse: on the screen in front, or in what the program has laid over it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Hit {
    Screen(ScreenHit),
    Line(ListLine),
    /// A list laid over the screen, beside its lines.
    List,
    Footer(Key),
}

impl Hit {
    /// What the table calls it.
    fn spot(self) -> Spot {
        match self {
            Hit::Screen(hit) => hit.spot(),
            Hit::Line(_) => Spot::Line,
            Hit::List => Spot::List,
            Hit::Footer(_) => Spot::Footer,
        }
    }
}

impl App for Program {
    type Answer = Found;

    fn update(&mut self, event: Event) -> Vec<Effect> {
        let mut effects = self.hear_of(event);
        effects.extend(self.jobs());
        effects
    }

    fn finish(&mut self, found: Found) -> Vec<Effect> {
        let mut effects = self.take_found(found);
        effects.extend(self.jobs());
        effects
    }

    fn wants_time(&self) -> bool {
        true
    }

    fn mouse(&self) -> Mouse {
        self.shared.mouse
    }

    fn view(&self, frame: &mut Frame<'_>) {
        let area = frame.area();
        self.draw(area, frame.buffer_mut());
    }
}

impl Program {
    /// What is to be worked out, read or written now.
    fn jobs(&mut self) -> impl Iterator<Item = Effect> + use<> {
        let of_screens = self.screens.jobs(&self.shared);
        let today = self.shared.today();
        of_screens.into_iter().chain(self.shared.keeping.job(today)).map(Effect::Work)
    }

    fn take_found(&mut self, found: Found) -> Vec<Effect> {
        match found {
            Found::Sound(found) => self.shared.sound.take(found).into_iter().collect(),
            Found::Plan(found) => self.take_plan(*found),
            Found::Opened(opened) => self.remembering(|program| {
                program.screens.changes.take_opened(*opened, &mut program.shared);
                Vec::new()
            }),
            Found::Keepers => self.remembering(|program| {
                let news = program.shared.keeping.fetch();
                program.screens.keepers.take_news(&news, &program.shared);
                program.shared.notice = news.told.or(program.shared.notice.take());
                Vec::new()
            }),
            Found::LineWritten(written) => {
                self.screens.line.take_written(*written, &mut self.shared);
                Vec::new()
            }
            Found::CompingWritten(written) => {
                self.screens.changes.take_written(*written, &mut self.shared);
                Vec::new()
            }
            Found::Saved(saved) => {
                self.screens.changes.take_saved(*saved, &mut self.shared);
                Vec::new()
            }
        }
    }

    fn hear_of(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Key(key) => self.remembering(|program| program.press(key)),
            Event::Mouse(pointer) => self.remembering(|program| program.point(pointer)),
            Event::Paste(text) => {
                self.paste(&text);
                Vec::new()
            }
            Event::Resize { columns, rows } => {
                self.shared.size = Size::new(columns, rows);
                self.screens.resize(&self.shared);
                Vec::new()
            }
            Event::Sound(news) => self.hear(news),
            Event::Time(now) => self.take_time(now),
        }
    }

    /// Takes the time. Nothing is drawn for that alone, unless another day has begun.
    fn take_time(&mut self, now: ZonedDateTime) -> Vec<Effect> {
        let today = self.shared.today();
        self.shared.now = now;
        if today == self.shared.today() { vec![Effect::KeepFrame] } else { Vec::new() }
    }

    fn press(&mut self, key: Key) -> Vec<Effect> {
        self.screens.begin();
        self.answer(key)
    }

    /// Does what a key means where it is pressed; one that stands for no command is typed.
    fn answer(&mut self, key: Key) -> Vec<Effect> {
        self.shared.clicked = None;
        if let Some(command) = self.command_of(key) {
            return self.obey(command);
        }
        let on_screen = self.section().is_of_screen();
        match &mut self.overlay {
            Some(Overlay::Help(search) | Overlay::Palette(search)) => search.press(key),
            Some(Overlay::Sound(_)) => {}
            None if on_screen => self.tell_of_no_meaning(key),
            None => self.screens.type_key(key, &self.shared),
        }
        Vec::new()
    }

    /// Says that a key means nothing on the screen.
    fn tell_of_no_meaning(&mut self, key: Key) {
        let help = self.shared.key_of(Command::Program(ProgramCommand::Help));
        let key = key.label(self.shared.glyphs);
        self.shared.tell(format!("{key} means nothing here: {help} lists every key"));
    }

    /// Where keys are pressed now.
    fn section(&self) -> Section {
        match self.overlay {
            Some(Overlay::Help(_) | Overlay::Palette(_)) => Section::Picking,
            Some(Overlay::Sound(_)) => Section::Sound,
            None => self.screens.section(),
        }
    }

    fn command_of(&self, key: Key) -> Option<Command> {
        let here = self.section();
        let everywhere = here.is_of_screen().then_some(Section::Everywhere);
        let sections = [Some(Section::Always), Some(here), everywhere];
        let keys = &self.shared.keys;
        sections.into_iter().flatten().find_map(|section| keys.command(section, key))
    }

    /// Has a command carried out by the one whose it is.
    pub(super) fn obey(&mut self, command: Command) -> Vec<Effect> {
        match command {
            Command::Program(command) => {
                self.shared.notice = None;
                self.perform(command)
            }
            Command::Line(command) => {
                self.on_screen(|screens, shared| screens.line.update(command, shared))
            }
            Command::Changes(command) => {
                self.on_screen(|screens, shared| screens.changes.update(command, shared))
            }
            Command::Keepers(command) => {
                self.on_screen(|screens, shared| screens.keepers.update(command, shared))
            }
            Command::Listen(command) => {
                self.on_screen(|screens, shared| screens.keepers.update_listen(command, shared))
            }
            Command::Practice(command) => {
                self.on_screen(|screens, shared| screens.keepers.update_practice(command, shared))
            }
            Command::Explore(command) => {
                self.on_screen(|screens, shared| screens.explore.update(command, shared))
            }
            Command::Typing(command) => {
                self.screens.update_field(command, &mut self.shared);
                Vec::new()
            }
            Command::Sound(command) => self.obey_on_sound_page(command),
            Command::List(command) => self.obey_in_list(command),
        }
    }

    /// Has a screen carry out a command of its own.
    pub(super) fn on_screen(
        &mut self,
        update: impl FnOnce(&mut Screens, &mut Shared) -> Vec<ScreenEffect>,
    ) -> Vec<Effect> {
        self.shared.notice = None;
        let effects = update(&mut self.screens, &mut self.shared);
        self.carry_out(effects)
    }

    fn obey_in_list(&mut self, command: ListCommand) -> Vec<Effect> {
        match self.overlay {
            Some(Overlay::Help(_)) => self.obey_in_help(command),
            Some(Overlay::Palette(_)) => return self.obey_in_palette(command),
            Some(Overlay::Sound(_)) => return self.obey_list_on_sound_page(command),
            None => self.screens.update_list(command, &mut self.shared),
        }
        Vec::new()
    }

    /// Does what a screen asks for.
    fn carry_out(&mut self, effects: Vec<ScreenEffect>) -> Vec<Effect> {
        let mut asked = Vec::new();
        for effect in effects {
            asked.extend(match effect {
                ScreenEffect::Copy { what, text } => self.copy(text, what),
                ScreenEffect::Play(piece) => vec![self.shared.sound.play(piece)],
                ScreenEffect::StopPlaying => self.shared.sound.stop().into_iter().collect(),
                ScreenEffect::Press(key) => self.answer(key),
                ScreenEffect::Show(screen) => {
                    self.screens.show(screen, &mut self.shared);
                    Vec::new()
                }
                ScreenEffect::Explore(chord) => {
                    self.screens.show_chord(&chord, &mut self.shared);
                    Vec::new()
                }
                ScreenEffect::Keep(new) => {
                    self.keep(Some(*new));
                    Vec::new()
                }
                ScreenEffect::Open(keeper) => {
                    self.open_keeper(&keeper);
                    Vec::new()
                }
                ScreenEffect::MakeLine(seed) => {
                    self.screens.show_line(&seed, &mut self.shared);
                    Vec::new()
                }
            });
        }
        asked
    }

    fn paste(&mut self, text: &str) {
        self.shared.clicked = None;
        match &mut self.overlay {
            Some(Overlay::Help(search) | Overlay::Palette(search)) => search.insert(text),
            Some(Overlay::Sound(_)) => {}
            None => self.screens.paste(text, &self.shared),
        }
    }

    fn point(&mut self, pointer: Pointer) -> Vec<Effect> {
        let Some(hit) = self.hit((pointer.column, pointer.row).into()) else { return Vec::new() };
        let Some(gesture) = Gesture::at(hit.spot(), pointer.what) else { return Vec::new() };
        self.screens.begin();
        match gesture.act {
            Act::Do(command) => self.obey(command),
            Act::Choose => self.click(hit),
        }
    }

    fn hit(&self, place: Position) -> Option<Hit> {
        let Some(overlay) = &self.overlay else {
            return self.screens.hit(place, &self.shared).map(Hit::Screen);
        };
        let window = self.shared.window();
        if let Some(key) = self.key_in_list_footer(overlay, place) {
            return Some(Hit::Footer(key));
        }
        let above_footer = Rect { height: window.height.saturating_sub(1), ..window };
        let lines = || self.palette_lines(window).or_else(|| self.sound_lines(window));
        let line = || lines()?.at(place);
        above_footer.contains(place).then(|| line().map_or(Hit::List, Hit::Line))
    }

    /// Takes what was clicked.
    fn click(&mut self, hit: Hit) -> Vec<Effect> {
        match hit {
            Hit::Screen(hit) => {
                let effects = self.screens.click(hit, &mut self.shared);
                self.carry_out(effects)
            }
            Hit::Footer(key) => self.answer(key),
            Hit::Line(line) => self.click_line(line),
            Hit::List => Vec::new(),
        }
    }

    /// Marks the line; a second click takes it, as Enter does.
    fn click_line(&mut self, line: ListLine) -> Vec<Effect> {
        if self.shared.clicked == Some((Spot::Line, line)) {
            self.shared.clicked = None;
            return self.obey_in_list(ListCommand::Accept);
        }
        self.shared.clicked = Some((Spot::Line, line));
        match &mut self.overlay {
            Some(Overlay::Palette(search)) => search.at = line.line,
            Some(Overlay::Sound(page)) => page.at = line.line,
            Some(Overlay::Help(_)) | None => {}
        }
        Vec::new()
    }
}
