//! What is done in the lists laid over the screen: scales, commands, tunings, the help page.

use super::super::{Explore, Over};
use crate::tui::command::{COMMANDS, Command, CommandRow};
use crate::tui::key::Key;
use crate::tui::runtime::Effect;
use crate::tui::widget::{Search, TextField};

impl Explore {
    /// Does what a key stands for in the list; where letters search, the others are typed.
    pub(super) fn press_in_list(&mut self, key: Key) -> Vec<Effect> {
        if let Some(command) = self.keys.command(self.over.section(), key) {
            return self.obey(command);
        }
        match &mut self.over {
            Over::Help(search) | Over::Palette(search) => search.press(key),
            Over::Tunings(_) => self.type_in_search(key),
            _ => {}
        }
        Vec::new()
    }

    fn type_in_search(&mut self, key: Key) {
        let Over::Tunings(picker) = &mut self.over else { return };
        let before = picker.field.text();
        picker.field.press(key);
        if picker.field.text() != before {
            self.search();
        }
    }

    /// Does what a command means in the list that is open.
    pub(super) fn obey_in_list(&mut self, command: Command) -> Vec<Effect> {
        match &self.over {
            Over::Scales(_) => self.obey_in_scales(command),
            Over::Help(_) => self.obey_in_help(command),
            Over::Palette(_) => return self.obey_in_palette(command),
            Over::Tunings(_) => self.obey_in_picker(command),
            Over::Nothing | Over::Chord(_) | Over::Wish(_) => {}
        }
        Vec::new()
    }

    fn obey_in_scales(&mut self, command: Command) {
        let (page, last) = (self.page_rows(), self.shown.scales.len().saturating_sub(1));
        let Over::Scales(at) = &mut self.over else { return };
        match command {
            Command::Cancel => self.over = Over::Nothing,
            Command::Accept => {
                let at = *at;
                self.over = Over::Nothing;
                self.take_scale(at);
            }
            command => *at = moved(*at, command, page).min(last),
        }
    }

    fn obey_in_help(&mut self, command: Command) {
        let (page, last) = (self.page_rows(), self.last_help_top());
        let Over::Help(search) = &mut self.over else { return };
        match command {
            Command::Cancel if search.empty() => {}
            Command::Cancel | Command::Accept => self.over = Over::Nothing,
            // A window that has grown may show the end of a page that stood lower.
            command => search.at = moved(search.at.min(last), command, page).min(last),
        }
    }

    fn obey_in_palette(&mut self, command: Command) -> Vec<Effect> {
        let (page, marked) = (self.page_rows(), self.marked_command());
        let Over::Palette(search) = &mut self.over else { return Vec::new() };
        match (command, marked) {
            (Command::Cancel, _) if search.empty() => {}
            (Command::Cancel, _) => self.over = Over::Nothing,
            (Command::Accept, Some(marked)) => {
                self.over = Over::Nothing;
                return self.perform(marked);
            }
            (command, _) => {
                search.at = moved(search.at, command, page);
                self.stop_at_last_command();
            }
        }
        Vec::new()
    }

    /// The commands that the list offers: all that can be asked for on the explorer, those first
    /// whose name has what is typed.
    pub(in crate::tui::explore) fn offered(&self, search: &Search) -> Vec<&'static CommandRow> {
        let there = |row: &&CommandRow| {
            row.section.is_heard_on_explorer() && row.command != Command::Palette
        };
        let mut rows: Vec<_> =
            COMMANDS.iter().filter(there).filter(|row| search.finds(&row.words())).collect();
        rows.sort_by_key(|row| !search.finds(&row.title()));
        rows
    }

    /// The command that is marked.
    fn marked_command(&self) -> Option<Command> {
        let Over::Palette(search) = &self.over else { return None };
        self.offered(search).get(search.at).map(|row| row.command)
    }

    fn stop_at_last_command(&mut self) {
        let Over::Palette(search) = &self.over else { return };
        let last = self.offered(search).len().saturating_sub(1);
        if let Over::Palette(search) = &mut self.over {
            search.at = search.at.min(last);
        }
    }

    fn obey_in_picker(&mut self, command: Command) {
        let page = usize::from(self.rows / 3).max(1);
        let Over::Tunings(picker) = &mut self.over else { return };
        match command {
            Command::Cancel if picker.field.text().is_empty() => self.over = Over::Nothing,
            Command::Cancel => {
                picker.field = TextField::holding("");
                self.search();
            }
            Command::Accept => {
                if let Some(tuning) = picker.marked().cloned() {
                    self.take_tuning(tuning);
                }
            }
            command => {
                let at = moved(picker.at, command, page);
                self.mark(at);
            }
        }
    }

    /// Marks a line of the list that is open.
    pub(super) fn mark_line(&mut self, line: usize) {
        match &mut self.over {
            Over::Scales(at) => *at = line,
            Over::Palette(search) => search.at = line,
            Over::Tunings(_) => self.mark(line),
            Over::Help(_) | Over::Nothing | Over::Chord(_) | Over::Wish(_) => {}
        }
    }

    /// ListView of a page that are new when one goes a page on.
    fn page_rows(&self) -> usize {
        usize::from(self.rows.saturating_sub(4)).max(1)
    }

    /// The help line on top when the last one stands above the footer.
    fn last_help_top(&self) -> usize {
        let Over::Help(search) = &self.over else { return 0 };
        self.help_lines(search).len().saturating_sub(usize::from(self.rows.saturating_sub(2)))
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
