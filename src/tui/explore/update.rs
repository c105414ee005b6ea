//! What keys and the mouse do to the explorer.

mod in_view;
mod instrument;
mod lists;
mod moves;
mod pointer;
mod scroll;
mod taking_back;
mod views;

use fretloom_fretboard::{Side, Way};
use fretloom_theory::ReadChord;

use super::suggest::suggestions;
use super::{Explore, Over};
use crate::answer::Wishes;
use crate::tui::command::{Command, Section};
use crate::tui::event::Event;
use crate::tui::key::Key;
use crate::tui::mouse::Mouse;
use crate::tui::runtime::{App, Effect};
use crate::tui::widget::Search;
use crate::tui::widget::TextField;

impl App for Explore {
    fn update(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Key(key) => self.remembering(|explore| explore.press(key)),
            Event::Mouse(pointer) => self.remembering(|explore| explore.point(pointer)),
            Event::Paste(text) => {
                self.paste(&text);
                Vec::new()
            }
            Event::Resize { columns, rows } => {
                (self.columns, self.rows) = (columns, rows);
                self.follow_hand();
                Vec::new()
            }
        }
    }

    fn mouse(&self) -> Mouse {
        self.mouse
    }

    fn view(&self, frame: &mut ratatui::Frame<'_>) {
        let area = frame.area();
        self.draw(area, frame.buffer_mut());
    }
}

impl Explore {
    /// Does something; if it has changed what is chosen, and was not going back or forward itself,
    /// it can be taken back.
    fn remembering(&mut self, doing: impl FnOnce(&mut Explore) -> Vec<Effect>) -> Vec<Effect> {
        let (before, steps) = (self.chosen.clone(), self.past.steps());
        let effects = doing(self);
        if self.past.steps() == steps && self.chosen != before {
            self.past.record(before);
        }
        effects
    }

    fn paste(&mut self, text: &str) {
        self.pointed_at = None;
        match &mut self.over {
            Over::Chord(field) | Over::Wish(field) => field.insert(text),
            Over::Help(search) | Over::Palette(search) => {
                search.insert(text);
            }
            Over::Tunings(picker) => {
                picker.field.insert(text);
                self.search();
            }
            _ => {}
        }
    }

    fn press(&mut self, key: Key) -> Vec<Effect> {
        self.pointed_at = None;
        self.comparing(|explore| explore.answer_key(key))
    }

    /// Does something; if another pair is chosen then, the notes that stay are marked.
    fn comparing(&mut self, doing: impl FnOnce(&mut Explore) -> Vec<Effect>) -> Vec<Effect> {
        let before = self.six_notes();
        let effects = doing(self);
        self.mark_what_stays(before);
        effects
    }

    fn answer_key(&mut self, key: Key) -> Vec<Effect> {
        if let Some(command) = self.keys.command(Section::Always, key) {
            return self.perform(command);
        }
        match &self.over {
            Over::Chord(_) | Over::Wish(_) => self.press_in_field(key),
            Over::Nothing => {
                let of_screen = || self.keys.command(Section::Everywhere, key);
                let command = self.keys.command(Section::Explore, key).or_else(of_screen);
                return command.map(|command| self.perform(command)).unwrap_or_default();
            }
            _ => return self.press_in_list(key),
        }
        Vec::new()
    }

    /// Does what a command means where the player is: on the explorer, or in a list.
    fn obey(&mut self, command: Command) -> Vec<Effect> {
        match &self.over {
            Over::Nothing => self.perform(command),
            _ => self.obey_in_list(command),
        }
    }

    fn press_in_field(&mut self, key: Key) {
        let (Over::Chord(field) | Over::Wish(field)) = &mut self.over else { return };
        match self.keys.command(Section::Typing, key) {
            Some(Command::Cancel) => self.over = Over::Nothing,
            Some(Command::Accept) => self.accept_field(),
            Some(Command::Suggestion) => self.take_suggestion(),
            _ => field.press(key),
        }
    }

    /// Types the first chord that is offered; it can be typed on.
    fn take_suggestion(&mut self) {
        let Over::Chord(field) = &mut self.over else { return };
        let typed = field.text();
        if let Some(chord) = suggestions(&typed).next() {
            field.go_to_end();
            field.insert(chord.get(typed.len()..).unwrap_or_default());
        }
    }

    /// Takes what is typed. What cannot be read stays in the field, which says why.
    fn accept_field(&mut self) {
        match std::mem::replace(&mut self.over, Over::Nothing) {
            Over::Chord(field) => match field.text().parse::<ReadChord>() {
                Ok(read) => self.take_chord(field.text().trim(), read),
                Err(_) => self.over = Over::Chord(field),
            },
            Over::Wish(field) => match Wishes::read_line(&field.text()) {
                Ok(wishes) => self.take_wishes(wishes),
                Err(_) => self.over = Over::Wish(field),
            },
            other => self.over = other,
        }
    }

    /// Does what a key, the wheel, or the list of commands asks for.
    fn perform(&mut self, command: Command) -> Vec<Effect> {
        self.notice = None;
        match command {
            Command::Quit | Command::QuitAtOnce => return vec![Effect::Quit],
            Command::Suspend => return vec![Effect::Suspend],
            Command::CopyNeck => return self.copy_neck(),
            Command::CopyShape => return self.copy_shape(),
            Command::Help => self.over = Over::Help(Search::new()),
            Command::Palette => self.over = Over::Palette(Search::new()),
            _ => self.explore(command),
        }
        Vec::new()
    }

    fn explore(&mut self, command: Command) {
        match command {
            Command::EditChord => {
                self.over = Over::Chord(TextField::holding(&self.chosen.chord.symbol));
            }
            Command::EditWish => {
                self.over = Over::Wish(TextField::holding(&self.chosen.wishes.to_string()));
            }
            Command::Families => self.change_families(),
            Command::ChooseScale => self.over = Over::Scales(self.chosen.scale),
            Command::MovePair => self.move_pair(),
            Command::NextPair => self.step_pair(1),
            Command::PreviousPair => self.step_pair(-1),
            Command::NextScale => self.step_scale(1),
            Command::PreviousScale => self.step_scale(-1),
            Command::Climb => self.climb(Way::Up),
            Command::Descend => self.climb(Way::Down),
            Command::FirstTriad => self.next_inversion(Side::First),
            Command::SecondTriad => self.next_inversion(Side::Second),
            Command::NextStrings => self.step_strings(1),
            Command::PreviousStrings => self.step_strings(-1),
            Command::LockStrings => self.chosen.locked = !self.chosen.locked,
            Command::OtherFingers => self.other_fingers(),
            Command::OtherPlace => self.other_place(),
            Command::NextView => self.step_view(1),
            Command::PreviousView => self.step_view(-1),
            Command::NextChoice => self.step_choice(1),
            Command::PreviousChoice => self.step_choice(-1),
            Command::CapoUp => self.move_capo(1),
            Command::CapoDown => self.move_capo(-1),
            Command::LeftHanded => self.turn_for_other_hand(),
            Command::UpsideDown => self.turn_over(),
            Command::FretWidths => self.change_fret_widths(),
            Command::LeftOut => self.chosen.shows_left_out = !self.chosen.shows_left_out,
            Command::Labels => self.next_labels(),
            Command::Spelling => self.change_spelling(),
            Command::ChooseTuning => self.open_picker(),
            Command::ScrollRight => self.scroll_to(self.chosen.first_fret.saturating_add(1)),
            Command::ScrollLeft => self.scroll_to(self.chosen.first_fret.saturating_sub(1)),
            Command::ToNut => self.scroll_to(1),
            Command::ToEnd => self.scroll_to(u8::MAX),
            Command::Undo => self.undo(),
            Command::Redo => self.redo(),
            Command::FreeMouse => self.change_mouse(),
            Command::Back => self.page_back(),
            Command::Forward => self.page_forward(),
            Command::ToHand => self.scroll_to_hand(),
            _ => {}
        }
    }
}

/// `at` moved by one step in a circle of `count`.
pub(super) fn wrapped(at: usize, by: isize, count: usize) -> usize {
    match isize::try_from(count) {
        Ok(count) if count > 0 => {
            let moved = (at as isize + by).rem_euclid(count);
            usize::try_from(moved).unwrap_or_default()
        }
        _ => 0,
    }
}
