//! What keys do to the explorer.

mod instrument;
mod moves;
mod scroll;

use fretloom_fretboard::{Side, Way};
use fretloom_theory::ReadChord;

use super::{Explore, Field, Over};
use crate::answer::Wishes;
use crate::tui::command::{Command, Section};
use crate::tui::event::Event;
use crate::tui::key::Key;
use crate::tui::runtime::{App, Effect};

impl App for Explore {
    fn update(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Key(key) => self.press(key),
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

    fn view(&self, frame: &mut ratatui::Frame<'_>) {
        let area = frame.area();
        self.draw(area, frame.buffer_mut());
    }
}

impl Explore {
    fn paste(&mut self, text: &str) {
        match &mut self.over {
            Over::Chord(field) | Over::Wish(field) => field.insert(text),
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
        let everywhere = self.keys.command(Section::Everywhere, key);
        match everywhere {
            Some(Command::QuitAtOnce) => return vec![Effect::Quit],
            Some(Command::Suspend) => return vec![Effect::Suspend],
            _ => {}
        }
        match &self.over {
            Over::Chord(_) | Over::Wish(_) => self.press_in_field(key),
            Over::Help(_) | Over::Scales(_) => self.press_in_list(key),
            Over::Tunings(_) => self.press_in_picker(key),
            Over::Nothing => match (self.keys.command(Section::Explore, key), everywhere) {
                (Some(command), _) => {
                    self.notice = None;
                    self.explore(command);
                }
                (None, Some(Command::Help)) => self.over = Over::Help(0),
                (None, Some(Command::Quit)) => return vec![Effect::Quit],
                _ => {}
            },
        }
        Vec::new()
    }

    fn press_in_field(&mut self, key: Key) {
        let (Over::Chord(field) | Over::Wish(field)) = &mut self.over else { return };
        match self.keys.command(Section::Typing, key) {
            Some(Command::Cancel) => self.over = Over::Nothing,
            Some(Command::Accept) => self.accept_field(),
            _ => field.press(key),
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
        let page = usize::from(self.rows.saturating_sub(4)).max(1);
        let last = match &self.over {
            Over::Scales(_) => self.choices.len().saturating_sub(1),
            _ => self.last_help_top(),
        };
        let command = self.keys.command(Section::List, key);
        match (&mut self.over, command) {
            (_, Some(Command::Cancel)) => self.over = Over::Nothing,
            (Over::Help(_), Some(Command::Accept)) => self.over = Over::Nothing,
            (Over::Scales(at), Some(Command::Accept)) => {
                let at = *at;
                self.over = Over::Nothing;
                self.take_scale(at);
            }
            (Over::Help(at) | Over::Scales(at), Some(command)) => {
                // A window that has grown may show the end of a page that stood lower.
                let now = (*at).min(last);
                *at = moved(now, command, page).min(last);
            }
            _ => {}
        }
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
        self.help_lines().len().saturating_sub(usize::from(self.rows.saturating_sub(1)))
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
