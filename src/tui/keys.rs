//! The keys of every command.

use std::path::Path;

use super::command::{COMMANDS, Command, CommandRow, ExploreCommand, ProgramCommand, Section};
use super::key::Key;
use super::keymap::Keymap;
use crate::library::Problem;
use crate::library::files::text_if_there;

/// The keys of every command.
#[derive(Clone, Debug)]
pub struct Keys(Keymap<Command>);

impl Keys {
    /// The file's name in the player's folder.
    pub const FILE: &'static str = "keys.toml";

    /// A file that a player can begin with: the built-in keys.
    pub const SAMPLE: &'static str = include_str!("../../assets/keys.toml");

    /// The built-in keys, and what is wrong with their file (nothing, as a test sees to).
    #[must_use]
    pub fn built_in() -> (Keys, Vec<Problem>) {
        let rows = COMMANDS.iter().map(|row| (row.listed.name(), row.name, row.command));
        let after = |at: usize| Section::ALL.into_iter().skip(at + 1);
        let sections = Section::ALL.into_iter().enumerate();
        let pairs = sections.flat_map(|(at, one)| after(at).map(move |other| (one, other)));
        let together = pairs.filter(|(one, other)| one.is_heard_with(*other));
        let mut keymap = Keymap::new(rows)
            .hearing_together(together.map(|(one, other)| [one.name(), other.name()]))
            .keeping(Section::Always.name(), Command::Program(ProgramCommand::QuitAtOnce));
        for row in COMMANDS.iter().filter(|row| row.section != row.listed) {
            keymap = keymap.hearing(row.listed.name(), row.command, row.section.name());
        }
        let problems = keymap.overlay("assets/keys.toml", Keys::SAMPLE);
        (Keys(keymap), problems)
    }

    /// The built-in keys with those of the player's folder on top, and what is wrong with either.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> (Keys, Vec<Problem>) {
        let (mut keys, mut problems) = Keys::built_in();
        let Some(path) = config_folder.map(|folder| folder.join(Keys::FILE)) else {
            return (keys, problems);
        };
        match text_if_there(&path) {
            Ok(None) => {}
            Ok(Some(text)) => {
                problems.extend(keys.0.overlay(&path.display().to_string(), &text));
            }
            Err(problem) => problems.push(problem),
        }
        (keys, problems)
    }

    /// The command of `[always]` or `[everywhere]` that has this key, if one has.
    #[must_use]
    pub fn on_every_screen(&self, key: Key) -> Option<&'static CommandRow> {
        let there = |row: &&CommandRow| matches!(row.listed, Section::Always | Section::Everywhere);
        COMMANDS.iter().filter(there).find(|row| self.of(row).contains(&key))
    }

    /// The command of `[explore]`, other than climbing, that has no key but this one.
    #[must_use]
    pub fn only_key_of(&self, key: Key) -> Option<&'static CommandRow> {
        let climb = Command::Explore(ExploreCommand::Climb);
        let there = |row: &&CommandRow| row.listed == Section::Explore && row.command != climb;
        COMMANDS.iter().filter(there).find(|row| self.of(row) == [key])
    }

    /// Gives a command one key more, and takes it from every other one that is heard with it.
    pub(super) fn add(&mut self, section: Section, command: Command, key: Key) {
        self.0.add(section.name(), command, key);
    }

    /// What a key does where a section is heard.
    #[must_use]
    pub fn command(&self, section: Section, key: Key) -> Option<Command> {
        self.0.command(section.name(), key)
    }

    /// The first key of a command, which is the one to show; none where it has no key.
    #[must_use]
    pub fn first(&self, command: Command) -> Option<Key> {
        let row = COMMANDS.iter().find(|row| row.command == command)?;
        self.of(row).first().copied()
    }

    /// The keys of a command, the one to show first.
    #[must_use]
    pub fn of(&self, row: &CommandRow) -> &[Key] {
        self.0.keys(row.listed.name(), row.command)
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn every_command_has_a_key_a_name_and_help() {
        let (keys, problems) = Keys::built_in();
        assert!(problems.is_empty(), "{problems:?}");
        let mut names = HashSet::new();
        for row in COMMANDS {
            assert!(!keys.of(row).is_empty(), "{} has no key", row.name);
            assert!(names.insert((row.listed, row.name)), "{} stands twice", row.name);
            assert!(!row.help.is_empty());
        }
    }

    #[test]
    fn no_file_takes_the_last_way_out() {
        let ctrl_c: Key = "ctrl-c".parse().unwrap();
        for (text, expected) in [
            ("[always]\nquit-at-once = []", "1:1: expected a key for `quit-at-once` of [always]"),
            ("[always]\nsuspend = [\"ctrl-c\"]", "2:12: found `ctrl-c`, expected another key"),
            ("[explore]\nclimb = [\"ctrl-c\"]", "2:10: found `ctrl-c`, expected another key"),
            ("[list]\naccept = [\"ctrl-c\"]", "2:11: found `ctrl-c`, expected another key"),
        ] {
            let (mut keys, _) = Keys::built_in();
            let problems = keys.0.overlay("keys.toml", text);
            let problems: Vec<String> = problems.iter().map(ToString::to_string).collect();
            let begins = problems.iter().all(|problem| {
                problem.strip_prefix("keys.toml:").is_some_and(|told| told.starts_with(expected))
            });
            assert!(problems.len() == 1 && begins, "{problems:?}");
            let command = keys.command(Section::Always, ctrl_c);
            assert_eq!(command, Some(Command::Program(ProgramCommand::QuitAtOnce)), "{text}");
        }
        let (mut keys, _) = Keys::built_in();
        assert_eq!(keys.0.overlay("keys.toml", "[always]\nquit-at-once = [\"f10\"]"), []);
        assert_eq!(keys.command(Section::Always, ctrl_c), None);
    }

    /// What is heard before a section, or with it, has no key of its own there.
    #[test]
    fn a_key_has_one_meaning_wherever_it_is_heard() {
        let (keys, _) = Keys::built_in();
        for row in COMMANDS {
            for key in keys.of(row) {
                let heard =
                    Section::ALL.into_iter().filter(|section| section.is_heard_with(row.section));
                let meant: HashSet<_> =
                    heard.filter_map(|section| keys.command(section, *key)).collect();
                assert_eq!(meant, HashSet::from([row.command]), "{key}");
            }
        }
    }

    /// One hand is on the instrument: nothing needs Alt, AltGr or a bracket, and only leaving needs
    /// Ctrl.
    #[test]
    fn every_command_has_a_key_that_one_hand_reaches() {
        let (keys, _) = Keys::built_in();
        for row in COMMANDS {
            let reachable = keys.of(row).iter().any(|key| !key.modifiers().alt);
            assert!(reachable, "{}", row.name);
        }
    }
}
