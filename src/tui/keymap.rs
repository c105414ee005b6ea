//! Which key does what, from TOML that a player can write.
//!
//! ```toml
//! [explore]
//! next-pair = ["down", "j"]
//! ```
//!
//! A [`Keymap`] starts with the commands there are and no keys. [`overlay`](Keymap::overlay) reads
//! a file on top: an entry replaces all keys of its command, and takes them from whichever command
//! of the same section an earlier file gave them to. The built-in keys are the first file, the
//! player's own is the second, and both go through this one reader. A wrong entry costs itself
//! only; what is wrong comes back as [`Problem`]s.
//!
//! The invariant: within a section a key does one thing.

mod read;

use super::key::Key;
use crate::library::Problem;

/// The keys of every command, section by section.
///
/// `C` is what a key press stands for, usually an enum of commands. Look-ups walk the rows: there
/// are about a hundred, and a hand makes a few a second.
#[derive(Clone, Debug)]
pub struct Keymap<C> {
    rows: Vec<Row<C>>,
}

/// One command in one section.
#[derive(Clone, Debug)]
struct Row<C> {
    section: &'static str,
    name: &'static str,
    command: C,
    keys: Vec<Key>,
}

impl<C: Copy + PartialEq> Keymap<C> {
    /// A map without keys for these commands, each with its section and its name in the files.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::tui::keymap::Keymap;
    ///
    /// let mut keys = Keymap::new([("explore", "next-pair", 1), ("explore", "keep", 2)]);
    /// let problems = keys.overlay("keys.toml", "[explore]\nnext-pair = [\"j\"]\nkep = [\"k\"]");
    ///
    /// assert_eq!(keys.command("explore", "j".parse().unwrap()), Some(1));
    /// assert_eq!(problems[0].line, 3);
    /// ```
    pub fn new(commands: impl IntoIterator<Item = (&'static str, &'static str, C)>) -> Self {
        let rows = commands.into_iter().map(|(section, name, command)| Row {
            section,
            name,
            command,
            keys: Vec::new(),
        });
        Keymap { rows: rows.collect() }
    }

    /// Reads a file on top of what is there, and says what is wrong with it. `file` is its name,
    /// for the problems.
    pub fn overlay(&mut self, file: &str, text: &str) -> Vec<Problem> {
        let (entries, problems) = read::read(self, file, text);
        for entry in entries {
            self.bind(entry.row, entry.keys);
        }
        problems
    }

    /// What this key does in this section.
    #[must_use]
    pub fn command(&self, section: &str, key: Key) -> Option<C> {
        let mut rows = self.rows.iter().filter(|row| row.section == section);
        Some(rows.find(|row| row.keys.contains(&key))?.command)
    }

    /// The keys of this command in this section, the one to show first; none if it has none.
    #[must_use]
    pub fn keys(&self, section: &str, command: C) -> &[Key] {
        let mut rows = self.rows.iter();
        rows.find(|row| row.section == section && row.command == command)
            .map_or(&[], |row| &row.keys)
    }

    /// Gives a command of this section exactly these keys, and takes them from every other one.
    pub fn give(&mut self, section: &str, command: C, keys: Vec<Key>) {
        let mut rows = self.rows.iter();
        let at = rows.position(|row| row.section == section && row.command == command);
        if let Some(at) = at {
            self.bind(at, keys);
        }
    }

    /// Gives a command exactly these keys, and nobody else in its section any of them.
    fn bind(&mut self, at: usize, keys: Vec<Key>) {
        let Some(section) = self.rows.get(at).map(|row| row.section) else {
            return;
        };
        for row in self.rows.iter_mut().filter(|row| row.section == section) {
            row.keys.retain(|key| !keys.contains(key));
        }
        if let Some(row) = self.rows.get_mut(at) {
            row.keys = keys;
        }
    }
}

#[cfg(test)]
mod tests;
