//! A list that is searched by typing: of commands, and the help page.

use super::field::Field;
use super::{Explore, Over};
use crate::tui::command::{COMMANDS, Command, CommandRow};
use crate::tui::key::Key;

/// What is searched for, and where the list stands: its marked line, or the line on top.
#[derive(Clone, Debug)]
pub(super) struct Finder {
    pub(super) field: Field,
    pub(super) at: usize,
}

impl Finder {
    /// Nothing is searched for yet.
    pub(super) fn new() -> Finder {
        Finder { field: Field::holding(""), at: 0 }
    }

    /// Does a line hold every word of the search?
    pub(super) fn finds(&self, line: &str) -> bool {
        let line = line.to_lowercase();
        self.field.text().to_lowercase().split_whitespace().all(|word| line.contains(word))
    }

    /// Empties the search; false if it was empty.
    pub(super) fn empty(&mut self) -> bool {
        let was_empty = self.field.text().is_empty();
        *self = Finder::new();
        !was_empty
    }

    /// Types in the search; whatever is typed, the list begins at its first line.
    pub(super) fn press(&mut self, key: Key) {
        let before = self.field.text();
        self.field.press(key);
        if self.field.text() != before {
            self.at = 0;
        }
    }
}

/// The words by which a command is found: its name, what it does, its label.
pub(super) fn words_of(row: &CommandRow) -> String {
    format!("{} {} {}", name_of(row), row.help, row.label)
}

/// `next pair`
pub(super) fn name_of(row: &CommandRow) -> String {
    row.name.replace('-', " ")
}

impl Explore {
    /// The commands that the list offers: all that can be asked for on the explorer, those first
    /// whose name has what is typed.
    pub(super) fn offered(&self, finder: &Finder) -> Vec<&'static CommandRow> {
        let there = |row: &&CommandRow| {
            row.section.is_heard_on_explorer() && row.command != Command::Palette
        };
        let mut rows: Vec<_> =
            COMMANDS.iter().filter(there).filter(|row| finder.finds(&words_of(row))).collect();
        rows.sort_by_key(|row| !finder.finds(&name_of(row)));
        rows
    }

    /// The command that is marked.
    pub(super) fn marked_command(&self) -> Option<Command> {
        let Over::Palette(finder) = &self.over else { return None };
        self.offered(finder).get(finder.at).map(|row| row.command)
    }
}
