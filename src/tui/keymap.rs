//! Which key does what, from TOML that a player can write.
//!
//! ```toml
//! [explore]
//! next-pair = ["down", "j"]
//! ```
//!
//! A [`Keymap`] starts with the commands there are and no keys. [`overlay`](Keymap::overlay) reads
//! a file on top: an entry replaces all keys of its command, and takes them from every other command
//! that is heard at the same time. The built-in keys are the first file, the player's own is the
//! second, and both go through this one reader. A wrong entry is reported as a [`Problem`] and costs
//! no other entry. A command that a file leaves without a key, and does not name, is reported too.
//!
//! The invariant: within a section, and within sections that are heard together, a key does one
//! thing.

mod read;
mod rows;

use super::key::Key;
use crate::library::Problem;
use read::Entry;
use rows::{Row, Rows};

/// The keys of every command, section by section.
///
/// `C` is what a key press stands for, usually an enum of commands. Look-ups walk the rows: there
/// are about a hundred, and a hand makes a few a second.
#[derive(Clone, Debug)]
pub struct Keymap<C>(Rows<C>);

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
            heard: section,
            name,
            command,
            keys: Vec::new(),
            kept: false,
        });
        Keymap(Rows { rows: rows.collect(), together: Vec::new() })
    }

    /// The map in which the keys of this command are heard in another section than files have it in.
    #[must_use]
    pub fn hearing(mut self, section: &str, command: C, heard: &'static str) -> Keymap<C> {
        if let Some(at) = self.position(section, command)
            && let Some(row) = self.0.rows.get_mut(at)
        {
            row.heard = heard;
        }
        self
    }

    /// The map with pairs of sections that are heard at the same time: in the two together a key has
    /// one meaning.
    #[must_use]
    pub fn hearing_together(
        mut self,
        pairs: impl IntoIterator<Item = [&'static str; 2]>,
    ) -> Keymap<C> {
        self.0.together.extend(pairs);
        self
    }

    /// The map in which this command always has a key, whatever a file says.
    #[must_use]
    pub fn keeping(mut self, section: &str, command: C) -> Keymap<C> {
        if let Some(at) = self.position(section, command)
            && let Some(row) = self.0.rows.get_mut(at)
        {
            row.kept = true;
        }
        self
    }

    /// Reads a file on top of what is there, and says what is wrong with it. `file` is its name,
    /// for the problems.
    pub fn overlay(&mut self, file: &str, text: &str) -> Vec<Problem> {
        let (entries, mut problems) = read::read(&self.0, file, text);
        let before: Vec<Vec<Key>> = self.0.rows.iter().map(|row| row.keys.clone()).collect();
        for entry in &entries {
            self.bind(entry.row, entry.keys());
        }
        for (at, keys) in before.into_iter().enumerate().filter(|(_, keys)| !keys.is_empty()) {
            problems.extend(self.left_without(at, keys, file, &entries));
        }
        problems.sort_by_key(|problem| (problem.line, problem.column));
        problems
    }

    /// The problem with a file that has taken all keys from the command of a row, which had these
    /// `keys` before. A command that must keep a key gets them back.
    fn left_without(
        &mut self,
        at: usize,
        keys: Vec<Key>,
        file: &str,
        entries: &[Entry],
    ) -> Option<Problem> {
        let row = self.0.rows.get(at).filter(|row| row.keys.is_empty())?;
        let (section, here, name, kept) = (row.section, row.heard, row.name, row.kept);
        if kept {
            let usual: Vec<String> = keys.iter().map(|key| format!("`{key}`")).collect();
            let usual = usual.join(", ");
            self.bind(at, keys);
            let expected = format!("a key for `{name}` of [{section}]; {usual} keeps its meaning");
            return Some(Problem::of_file(file, expected));
        }
        if entries.iter().any(|entry| entry.row == at) {
            return None;
        }
        let heard = |entry: &&Entry| {
            let by = self.0.rows.get(entry.row).map(|row| row.heard);
            by.is_some_and(|by| self.0.are_heard_together(by, here))
        };
        let claims = entries.iter().filter(heard).flat_map(|entry| &entry.claims);
        let taken = claims.into_iter().find(|claim| keys.contains(&claim.key))?;
        let expected = format!("a key for `{name}` of [{section}] too, which is left without one");
        Some(taken.problem(file, expected))
    }

    /// What this key does where this section is heard.
    #[must_use]
    pub fn command(&self, section: &str, key: Key) -> Option<C> {
        let mut rows = self.0.rows.iter().filter(|row| row.heard == section);
        Some(rows.find(|row| row.keys.contains(&key))?.command)
    }

    /// The keys of this command of this section, the one to show first; none if it has none.
    #[must_use]
    pub fn keys(&self, section: &str, command: C) -> &[Key] {
        let row = self.position(section, command).and_then(|at| self.0.rows.get(at));
        row.map_or(&[], |row| &row.keys)
    }

    /// Gives a command of this section one key more, and takes it from every other one.
    pub fn add(&mut self, section: &str, command: C, key: Key) {
        let Some(at) = self.position(section, command) else { return };
        let mut keys = self.keys(section, command).to_vec();
        keys.retain(|known| *known != key);
        keys.push(key);
        self.bind(at, keys);
    }

    fn position(&self, section: &str, command: C) -> Option<usize> {
        self.0.rows.iter().position(|row| row.section == section && row.command == command)
    }

    /// Gives a command exactly these keys, and takes them from all others that are heard with it.
    fn bind(&mut self, at: usize, keys: Vec<Key>) {
        let Some(here) = self.0.rows.get(at).map(|row| row.heard) else { return };
        let together: Vec<bool> =
            self.0.rows.iter().map(|row| self.0.are_heard_together(row.heard, here)).collect();
        let rows = self.0.rows.iter_mut().zip(together);
        for (row, _) in rows.filter(|(_, together)| *together) {
            row.keys.retain(|key| !keys.contains(key));
        }
        if let Some(row) = self.0.rows.get_mut(at) {
            row.keys = keys;
        }
    }
}

#[cfg(test)]
mod tests;
