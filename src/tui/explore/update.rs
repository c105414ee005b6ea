//! What keys do to the explorer.

mod instrument;
mod moves;
mod pointer;
mod scroll;

use fretloom_fretboard::{Side, Way};
use fretloom_theory::ReadChord;

use super::suggest::suggestions;
use super::{Explore, Field, Finder, Over};
use crate::answer::Wishes;
use crate::tui::command::{Command, Section};
use crate::tui::event::Event;
use crate::tui::key::Key;
use crate::tui::mouse::Mouse;
use crate::tui::runtime::{App, Effect};

impl App for Explore {
    fn update(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Key(key) => self.remembering(|explore| explore.press(key)),
            Event::Mouse(pointer) => self.remembering(|explore| {
                explore.point(pointer);
                Vec::new()
            }),
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
        let (before, steps) = (self.choices_made(), self.past.steps());
        let effects = doing(self);
        if self.past.steps() == steps && self.choices_made() != before {
            self.past.record(before);
        }
        effects
    }

    fn paste(&mut self, text: &str) {
        match &mut self.over {
            Over::Chord(field) | Over::Wish(field) => field.insert(text),
            Over::Help(finder) | Over::Palette(finder) => {
                finder.field.insert(text);
                finder.at = 0;
            }
            Over::Tunings(picker) => {
                picker.field.insert(text);
                self.search();
            }
            _ => {}
        }
    }

    fn press(&mut self, key: Key) -> Vec<Effect> {
        let before = self.six_notes();
        let effects = self.answer_key(key);
        self.mark_what_stays(before);
        effects
    }

    fn answer_key(&mut self, key: Key) -> Vec<Effect> {
        if let Some(command) = self.keys.command(Section::Always, key) {
            return self.perform(command);
        }
        match &self.over {
            Over::Chord(_) | Over::Wish(_) => self.press_in_field(key),
            Over::Scales(_) => self.press_in_list(key),
            Over::Help(_) => self.press_in_help(key),
            Over::Palette(_) => return self.press_in_palette(key),
            Over::Tunings(_) => self.press_in_picker(key),
            Over::Nothing => {
                let of_screen = || self.keys.command(Section::Everywhere, key);
                let command = self.keys.command(Section::Explore, key).or_else(of_screen);
                return command.map(|command| self.perform(command)).unwrap_or_default();
            }
        }
        Vec::new()
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

    fn press_in_list(&mut self, key: Key) {
        let (page, last) = (self.page_rows(), self.choices.len().saturating_sub(1));
        let Over::Scales(at) = &mut self.over else { return };
        match self.keys.command(Section::List, key) {
            Some(Command::Cancel) => self.over = Over::Nothing,
            Some(Command::Accept) => {
                let at = *at;
                self.over = Over::Nothing;
                self.take_scale(at);
            }
            Some(command) => *at = moved(*at, command, page).min(last),
            None => {}
        }
    }

    /// On the help page letters search; the rest scrolls and leaves.
    fn press_in_help(&mut self, key: Key) {
        let (page, last) = (self.page_rows(), self.last_help_top());
        let command = self.keys.command(Section::Picking, key);
        let Over::Help(finder) = &mut self.over else { return };
        match command {
            Some(Command::Cancel) if finder.empty() => {}
            Some(Command::Cancel | Command::Accept) => self.over = Over::Nothing,
            // A window that has grown may show the end of a page that stood lower.
            Some(command) => finder.at = moved(finder.at.min(last), command, page).min(last),
            None => finder.press(key),
        }
    }

    /// In the list of commands letters search; Enter does what is marked.
    fn press_in_palette(&mut self, key: Key) -> Vec<Effect> {
        let page = self.page_rows();
        let (command, marked) = (self.keys.command(Section::Picking, key), self.marked_command());
        let Over::Palette(finder) = &mut self.over else { return Vec::new() };
        match (command, marked) {
            (Some(Command::Cancel), _) if finder.empty() => {}
            (Some(Command::Cancel), _) => self.over = Over::Nothing,
            (Some(Command::Accept), Some(marked)) => {
                self.over = Over::Nothing;
                return self.perform(marked);
            }
            (Some(command), _) => {
                finder.at = moved(finder.at, command, page);
                self.stop_at_last_command();
            }
            (None, _) => finder.press(key),
        }
        Vec::new()
    }

    fn stop_at_last_command(&mut self) {
        let Over::Palette(finder) = &self.over else { return };
        let last = self.offered(finder).len().saturating_sub(1);
        if let Over::Palette(finder) = &mut self.over {
            finder.at = finder.at.min(last);
        }
    }

    /// Lines of a page that are new when one goes a page on.
    fn page_rows(&self) -> usize {
        usize::from(self.rows.saturating_sub(4)).max(1)
    }

    /// In the list of tunings letters search; the rest moves, takes and leaves.
    fn press_in_picker(&mut self, key: Key) {
        let page = usize::from(self.rows / 3).max(1);
        let Over::Tunings(picker) = &mut self.over else { return };
        match self.keys.command(Section::Picking, key) {
            Some(Command::Cancel) if picker.field.text().is_empty() => self.over = Over::Nothing,
            Some(Command::Cancel) => {
                picker.field = Field::holding("");
                self.search();
            }
            Some(Command::Accept) => {
                if let Some(tuning) = picker.marked().cloned() {
                    self.take_tuning(tuning);
                }
            }
            Some(command) => {
                let at = moved(picker.at, command, page);
                self.mark(at);
            }
            None => {
                let before = picker.field.text();
                picker.field.press(key);
                if picker.field.text() != before {
                    self.search();
                }
            }
        }
    }

    /// The help line on top when the last one stands above the footer.
    fn last_help_top(&self) -> usize {
        let Over::Help(finder) = &self.over else { return 0 };
        self.help_lines(finder).len().saturating_sub(usize::from(self.rows.saturating_sub(2)))
    }

    /// Does what a key, or the list of commands, asks for.
    fn perform(&mut self, command: Command) -> Vec<Effect> {
        self.notice = None;
        match command {
            Command::Quit | Command::QuitAtOnce => return vec![Effect::Quit],
            Command::Suspend => return vec![Effect::Suspend],
            Command::CopyNeck => return self.copy_neck(),
            Command::CopyShape => return self.copy_shape(),
            Command::Help => self.over = Over::Help(Finder::new()),
            Command::Palette => self.over = Over::Palette(Finder::new()),
            _ => self.explore(command),
        }
        Vec::new()
    }

    fn explore(&mut self, command: Command) {
        match command {
            Command::EditChord => self.over = Over::Chord(Field::holding(&self.symbol)),
            Command::EditWish => self.over = Over::Wish(Field::holding(&self.wishes.to_string())),
            Command::Families => self.change_families(),
            Command::ChooseScale => self.over = Over::Scales(self.scale),
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
            Command::LockStrings => self.locked = !self.locked,
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
            Command::LeftOut => self.shows_left_out = !self.shows_left_out,
            Command::Labels => self.next_labels(),
            Command::Spelling => self.change_spelling(),
            Command::ChooseTuning => self.open_picker(),
            Command::ScrollRight => self.scroll_to(self.first_fret.saturating_add(1)),
            Command::ScrollLeft => self.scroll_to(self.first_fret.saturating_sub(1)),
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

/// Where a list stands after a command; its end is the caller's business.
fn moved(now: usize, command: Command, page: usize) -> usize {
    match command {
        Command::Down => now + 1,
        Command::Up => now.saturating_sub(1),
        Command::PageDown => now + page,
        Command::PageUp => now.saturating_sub(page),
        _ => now,
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
