//! Playing, as the program has it: what is heard follows what is changed and shown.

use fretloom_theory::Quarters;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::effect::Effect;
use super::overlay::Overlay;
use super::state::Program;
use super::step::Step;
use crate::sound::{SoundError, Track};
use crate::tui::command::{
    ChangesCommand, Command, ExploreCommand, LineCommand, ListCommand, ProgramCommand, SoundCommand,
};
use crate::tui::event::SoundNews;
use crate::tui::found::FoundPlan;
use crate::tui::gesture::Spot;
use crate::tui::screen::Screen;
use crate::tui::sound::{
    Change, ELSEWHERE, Manner, SoundPage, SoundRow, What, draw_page, lines_of_page,
};
use crate::tui::widget::ListView;

/// What is heard rests on this: when it changes, what is heard changes.
#[derive(PartialEq)]
pub(super) struct Basis {
    what: What,
    front: Screen,
    step: Step,
    manner: Manner,
}

impl Program {
    /// What is heard now rests on, if anything is heard.
    pub(super) fn basis(&self) -> Option<Basis> {
        let what = self.shared.sound.what()?;
        let (front, manner) = (self.screens.front(), self.shared.sound.manner());
        Some(Basis { what, front, step: self.step(), manner })
    }

    /// Has what is heard follow what a key has changed. It ends where the player leaves the screen.
    pub(super) fn follow_change(&mut self, before: Option<Basis>) -> Option<Effect> {
        let (before, now) = (before?, self.basis()?);
        if before == now || before.what != now.what {
            return None;
        }
        if before.front != now.front {
            return self.shared.sound.stop();
        }
        match now.what {
            What::Line => {
                let piece = self.screens.line.piece()?;
                self.shared.sound.go_on_with(piece)
            }
            What::Changes => {
                let piece = self.screens.changes.piece(&self.shared)?;
                self.shared.sound.go_on_with(piece)
            }
            // A try goes on as it began, unless it is to be heard in another manner.
            What::Practice if before.manner == now.manner => None,
            What::Practice => {
                let piece = self.screens.keepers.piece()?;
                self.shared.sound.go_on_with(piece)
            }
            // What was struck rings on; the next is asked for with a key.
            What::Shapes | What::Ear => None,
        }
    }

    /// Hears how what is played is going; the cursor follows it.
    pub(super) fn hear(&mut self, news: SoundNews) -> Vec<Effect> {
        let (seen, what) = (self.seen_of_sound(), self.shared.sound.what());
        let failed = self.shared.sound.hear(news);
        if let Some(error) = failed {
            self.screens.keepers.was_not_heard();
            let why = self.why_not_heard(&error);
            self.shared.tell(why);
            return Vec::new();
        }
        match (self.shared.sound.what(), self.shared.sound.moment()) {
            (Some(What::Line), Some(moment)) => self.screens.line.follow(moment),
            (Some(What::Changes), Some(moment)) => self.screens.changes.follow(moment),
            (Some(What::Practice), Some(moment)) => self.screens.keepers.follow(moment),
            // What was tried has sounded to its end.
            (None, _) if what == Some(What::Practice) => {
                return self.on_screen(|screens, shared| screens.keepers.run_out(shared));
            }
            (Some(What::Shapes | What::Ear) | None, _) | (_, None) => {}
        }
        if seen == self.seen_of_sound() { vec![Effect::KeepFrame] } else { Vec::new() }
    }

    /// What is to be seen of what is heard: its words, and where the cursors are.
    fn seen_of_sound(&self) -> (Option<String>, [usize; 2], Option<Quarters>) {
        let cursors = (self.screens.line.cursor(), self.screens.changes.cursor());
        (self.shared.sound.in_words(), [cursors.0, cursors.1], self.screens.keepers.moment())
    }

    /// Takes plans of the tune; what is heard of it goes on with them.
    pub(super) fn take_plan(&mut self, found: FoundPlan) -> Vec<Effect> {
        let is_new = self.screens.changes.take_plan(found);
        if !is_new || self.shared.sound.what() != Some(What::Changes) {
            return Vec::new();
        }
        let piece = self.screens.changes.piece(&self.shared);
        piece.and_then(|piece| self.shared.sound.go_on_with(piece)).into_iter().collect()
    }

    /// Why nothing is heard, and what can be done without. What all was tried stands on the page of
    /// sound, for a line has no room for it.
    fn why_not_heard(&self, error: &SoundError) -> String {
        match error {
            SoundError::NoWay(_) => {
                let key = self.shared.key_of(Command::Program(ProgramCommand::Sound));
                format!("no sound can be played here: {key} says why; {ELSEWHERE}")
            }
            SoundError::ServerEnded
            | SoundError::ServerSilent
            | SoundError::ServerRefused(_)
            | SoundError::ProgramEnded(..)
            | SoundError::ProgramStuck(_)
            | SoundError::Device(_)
            | SoundError::Writing(_) => format!("{error}; {ELSEWHERE}"),
        }
    }

    /// Silences a track, or lets it sound again, and says so.
    pub(super) fn change_mute(&mut self, track: Track) {
        self.shared.sound.change_mute(track);
        let is_silent = self.shared.sound.is_silent(track);
        let (name, silent, sounds) = match (track, self.screens.front()) {
            (Track::Line, Screen::Changes) => ("the stabs", "are silent", "sound"),
            (Track::Line, Screen::Explore | Screen::Line | Screen::Keepers) => {
                ("the line", "is silent", "sounds")
            }
            (Track::Drone, _) => ("the drone", "is silent", "sounds"),
            (Track::Click, _) => ("the click", "is silent", "sounds"),
        };
        let what = if is_silent { silent } else { sounds };
        self.shared.tell(format!("{name} {what}"));
    }

    /// Does what is asked for on the page of sound.
    pub(super) fn obey_on_sound_page(&mut self, command: SoundCommand) -> Vec<Effect> {
        let Some(Overlay::Sound(page)) = &mut self.overlay else { return Vec::new() };
        let row = page.row();
        let last = SoundRow::ALL.len() - 1;
        match (command, row) {
            (SoundCommand::Down, _) => page.at = (page.at + 1).min(last),
            (SoundCommand::Up, _) => page.at = page.at.saturating_sub(1),
            (SoundCommand::More, Some(row)) => self.shared.sound.change(row, Change::More),
            (SoundCommand::Less, Some(row)) => self.shared.sound.change(row, Change::Less),
            (SoundCommand::Silence, Some(row)) => self.silence_row(row),
            (SoundCommand::Close, _) => self.overlay = None,
            (SoundCommand::Play, _) => {
                return self.play_of_screen().map(|play| self.obey(play)).unwrap_or_default();
            }
            (SoundCommand::More | SoundCommand::Less | SoundCommand::Silence, None) => {}
        }
        Vec::new()
    }

    /// The same for what every list can be asked, as the mouse does.
    pub(super) fn obey_list_on_sound_page(&mut self, command: ListCommand) -> Vec<Effect> {
        let command = match command {
            ListCommand::Down | ListCommand::PageDown => SoundCommand::Down,
            ListCommand::Up | ListCommand::PageUp => SoundCommand::Up,
            ListCommand::Accept => SoundCommand::More,
            ListCommand::Cancel => SoundCommand::Close,
        };
        self.obey_on_sound_page(command)
    }

    fn silence_row(&mut self, row: SoundRow) {
        match row {
            SoundRow::Level(track) => self.shared.sound.change_mute(track),
            SoundRow::Click => self.shared.sound.change_mute(Track::Click),
            SoundRow::Swing | SoundRow::CountIn | SoundRow::Rounds => {}
        }
    }

    /// What plays on the screen in front.
    fn play_of_screen(&self) -> Option<Command> {
        match self.screens.front() {
            Screen::Explore => Some(Command::Explore(ExploreCommand::PlayShape)),
            Screen::Line => Some(Command::Line(LineCommand::Play)),
            Screen::Changes => Some(Command::Changes(ChangesCommand::Play)),
            Screen::Keepers => self.screens.keepers.play(),
        }
    }

    /// The rows of the page, if it is open.
    pub(super) fn sound_lines(&self, area: Rect) -> Option<ListView> {
        let Some(Overlay::Sound(page)) = &self.overlay else { return None };
        Some(lines_of_page(*page, area, self.shared.clicked(Spot::Line)))
    }

    pub(super) fn draw_sound(&self, area: Rect, buffer: &mut Buffer) {
        if let Some(lines) = self.sound_lines(area) {
            draw_page(&self.shared.sound, &lines, &self.shared.theme, area, buffer);
        }
        if let Some(overlay) = &self.overlay {
            self.draw_list_footer(area, buffer, overlay);
        }
    }

    /// Opens the page.
    pub(super) fn open_sound_page(&mut self) -> Vec<Effect> {
        self.overlay = Some(Overlay::Sound(SoundPage::default()));
        self.shared.sound.look_for_ways().into_iter().collect()
    }
}
