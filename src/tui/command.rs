//! The one table of commands: footer, help page, key file and tests come from it.
//!
//! To add a command: a variant, a row here, a line in `assets/keys.toml`, a branch in `update`.

use std::path::Path;

use super::key::Key;
use super::keymap::Keymap;
use super::pedal::Pedal;
use crate::library::Problem;
use crate::library::files::text_if_there;

/// Something that a key can ask for.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum Command {
    Help,
    Quit,
    QuitAtOnce,
    Suspend,
    EditChord,
    EditWish,
    Families,
    ChooseScale,
    MovePair,
    NextPair,
    PreviousPair,
    NextScale,
    PreviousScale,
    Climb,
    Descend,
    FirstTriad,
    SecondTriad,
    NextStrings,
    PreviousStrings,
    LockStrings,
    OtherFingers,
    OtherPlace,
    NextView,
    PreviousView,
    NextChoice,
    PreviousChoice,
    CapoUp,
    CapoDown,
    LeftHanded,
    UpsideDown,
    FretWidths,
    LeftOut,
    Labels,
    Spelling,
    ChooseTuning,
    ScrollRight,
    ScrollLeft,
    ToNut,
    ToEnd,
    Undo,
    Redo,
    Back,
    Forward,
    Palette,
    CopyNeck,
    CopyShape,
    FreeMouse,
    ToHand,
    Suggestion,
    Accept,
    Cancel,
    Down,
    Up,
    PageDown,
    PageUp,
}

/// Where keys are pressed: each place has its own section in the key file.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Section {
    /// Heard before anything else, whatever lies over the screen, and while text is typed.
    Always,
    /// Heard on every screen, while nothing lies over it.
    Everywhere,
    /// The explorer itself.
    Explore,
    /// While a chord or a wish is being typed.
    Typing,
    /// In a list laid over the screen: scales.
    List,
    /// In the help page and the lists of commands and tunings, where letters search.
    Picking,
}

impl Section {
    /// All of them, in the order of the help page.
    pub const ALL: [Section; 6] = [
        Section::Explore,
        Section::Typing,
        Section::List,
        Section::Picking,
        Section::Everywhere,
        Section::Always,
    ];

    /// Is it heard on the explorer itself, while nothing lies over it?
    #[must_use]
    pub const fn is_heard_on_explorer(self) -> bool {
        matches!(self, Section::Explore | Section::Everywhere | Section::Always)
    }

    /// Can a key be meant for either of the two?
    pub(super) fn is_heard_with(self, other: Section) -> bool {
        use Section::{Always, Everywhere, Explore};
        self == other
            || matches!(
                (self, other),
                (Always, _) | (_, Always) | (Everywhere, Explore) | (Explore, Everywhere)
            )
    }

    /// Its name in the key file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Section::Always => "always",
            Section::Everywhere => "everywhere",
            Section::Explore => "explore",
            Section::Typing => "typing",
            Section::List => "list",
            Section::Picking => "picking",
        }
    }

    /// Its heading on the help page.
    #[must_use]
    pub const fn heading(self) -> &'static str {
        match self {
            Section::Always => "Always, even while typing",
            Section::Everywhere => "On every screen",
            Section::Explore => "Chord, pairs and neck",
            Section::Typing => "While typing a chord or a wish",
            Section::List => "In a list",
            Section::Picking => "In help, commands and tunings, where letters search",
        }
    }
}

/// One row of the table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct CommandRow {
    /// What is asked for.
    pub command: Command,
    /// Where.
    pub section: Section,
    /// Its name in the key file.
    pub name: &'static str,
    /// One or two words for the footer; empty where the footer leaves it out.
    pub label: &'static str,
    /// A line for the help page.
    pub help: &'static str,
}

impl CommandRow {
    /// The words by which a command is found: its name, what it does, its label.
    #[must_use]
    pub fn words(&self) -> String {
        format!("{} {} {}", self.title(), self.help, self.label)
    }

    /// Its name in words: `next pair`.
    #[must_use]
    pub fn title(&self) -> String {
        self.name.replace('-', " ")
    }
}

const fn row(
    section: Section,
    command: Command,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    CommandRow { command, section, name, label, help }
}

/// Every command. The order is that of the footer and of the help page.
#[rustfmt::skip]
pub const COMMANDS: &[CommandRow] = {
    use Section::{Always, Everywhere, Explore, List, Picking, Typing};
    &[
        row(Everywhere, Command::Help, "help", "help", "every key"),
        row(Explore, Command::Palette, "commands", "commands", "every command, to be found by its name"),
        row(Explore, Command::EditChord, "edit-chord", "chord", "type another chord"),
        row(Explore, Command::NextPair, "next-pair", "pair", "the next pair of the scale"),
        row(Explore, Command::PreviousPair, "previous-pair", "", "the pair before"),
        row(Explore, Command::MovePair, "move-pair", "", "the same pair moved within a symmetric scale"),
        row(Explore, Command::NextScale, "next-scale", "scale", "the next scale that fits the chord"),
        row(Explore, Command::PreviousScale, "previous-scale", "", "the scale before"),
        row(Explore, Command::ChooseScale, "choose-scale", "", "every scale that fits, with its reason"),
        row(Explore, Command::Climb, "climb", "climb", "up the ladder: the next shape, on to the next strings"),
        row(Explore, Command::Descend, "descend", "", "down the ladder"),
        row(Explore, Command::FirstTriad, "first-triad", "", "the next inversion of the first triad"),
        row(Explore, Command::SecondTriad, "second-triad", "", "the next inversion of the second triad"),
        row(Explore, Command::NextStrings, "next-strings", "strings", "the next set of three strings"),
        row(Explore, Command::PreviousStrings, "previous-strings", "", "the set before"),
        row(Explore, Command::NextView, "next-view", "view", "the whole neck, a position, strings, across, two a string"),
        row(Explore, Command::PreviousView, "previous-view", "", "the view before"),
        row(Explore, Command::NextChoice, "next-choice", "", "in a view: the next position, strings, chain or start"),
        row(Explore, Command::PreviousChoice, "previous-choice", "", "in a view: the one before"),
        row(Explore, Command::LockStrings, "lock-strings", "lock", "stay on these strings, the others quiet, or not"),
        row(Explore, Command::OtherFingers, "other-fingers", "fingers", "other fingers for the shape in hand"),
        row(Explore, Command::OtherPlace, "other-place", "elsewhere", "another place of the notes in hand"),
        row(Explore, Command::Labels, "labels", "labels", "notes, degrees, triad members, fingers, or the order"),
        row(Explore, Command::EditWish, "wish", "wish", "degrees to have, and with a minus not to have"),
        row(Explore, Command::ChooseTuning, "choose-tuning", "tuning", "choose another tuning, or type one"),
        row(Explore, Command::CapoUp, "capo-up", "capo", "the capo a fret up, partial or not"),
        row(Explore, Command::CapoDown, "capo-down", "", "the capo a fret down, at last off"),
        row(Explore, Command::LeftHanded, "left-handed", "", "the neck for the left hand, or for the right"),
        row(Explore, Command::UpsideDown, "upside-down", "", "string 1 at the bottom, or on top"),
        row(Explore, Command::FretWidths, "fret-widths", "", "frets of even width, or true to scale"),
        row(Explore, Command::LeftOut, "left-out", "", "the notes that the pair leaves out, faint, or not at all"),
        row(Explore, Command::Families, "families", "", "tertian triads alone, or sus and flat-five too"),
        row(Explore, Command::Spelling, "spelling", "", "triads as triads, or by the letters of the scale"),
        row(Explore, Command::ScrollRight, "scroll-right", "", "the neck a fret up"),
        row(Explore, Command::ScrollLeft, "scroll-left", "", "the neck a fret down"),
        row(Explore, Command::ToNut, "to-nut", "", "the neck from the nut"),
        row(Explore, Command::ToEnd, "to-end", "", "the neck to its last fret"),
        row(Explore, Command::Undo, "undo", "", "take the last change back"),
        row(Explore, Command::Redo, "redo", "", "make it again"),
        row(Explore, Command::Back, "back", "", "back to the chord before, with its scale and pair"),
        row(Explore, Command::Forward, "forward", "", "forward to the chord after"),
        row(Explore, Command::CopyShape, "copy-shape", "copy", "copy the shape in hand as tablature"),
        row(Explore, Command::CopyNeck, "copy-neck", "", "copy the neck as text"),
        row(Explore, Command::FreeMouse, "mouse", "", "the mouse selects text, or chooses what it points at"),
        row(Explore, Command::ToHand, "to-hand", "", "the neck to the position of the hand"),
        row(Typing, Command::Suggestion, "suggestion", "suggestion", "the first chord that goes on like this"),
        row(Typing, Command::Accept, "accept", "take it", "take what is typed"),
        row(Typing, Command::Cancel, "cancel", "leave it", "keep what there was"),
        row(List, Command::Down, "down", "down", "one line down"),
        row(List, Command::Up, "up", "up", "one line up"),
        row(List, Command::PageDown, "page-down", "", "a page down"),
        row(List, Command::PageUp, "page-up", "", "a page up"),
        row(List, Command::Accept, "accept", "choose", "choose what is marked"),
        row(List, Command::Cancel, "cancel", "back", "close the list"),
        row(Picking, Command::Down, "down", "down", "one line down"),
        row(Picking, Command::Up, "up", "up", "one line up"),
        row(Picking, Command::PageDown, "page-down", "", "a page down"),
        row(Picking, Command::PageUp, "page-up", "", "a page up"),
        row(Picking, Command::Accept, "accept", "take it", "take what is marked"),
        row(Picking, Command::Cancel, "cancel", "back", "empty the search, then close the list"),
        row(Everywhere, Command::Quit, "quit", "quit", "leave fretloom"),
        row(Always, Command::QuitAtOnce, "quit-at-once", "", "leave at once"),
        row(Always, Command::Suspend, "suspend", "", "back to the shell until fg"),
    ]
};

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
        let rows = COMMANDS.iter().map(|row| (row.section.name(), row.name, row.command));
        let after = |at: usize| Section::ALL.into_iter().skip(at + 1);
        let sections = Section::ALL.into_iter().enumerate();
        let pairs = sections.flat_map(|(at, one)| after(at).map(move |other| (one, other)));
        let together = pairs.filter(|(one, other)| one.is_heard_with(*other));
        let mut keymap = Keymap::new(rows)
            .hearing_together(together.map(|(one, other)| [one.name(), other.name()]))
            .keeping(Section::Always.name(), Command::QuitAtOnce);
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
        let there =
            |row: &&CommandRow| matches!(row.section, Section::Always | Section::Everywhere);
        COMMANDS.iter().filter(there).find(|row| self.of(row).contains(&key))
    }

    /// The command of the explorer, other than climbing, that has no key but this one.
    #[must_use]
    pub fn only_key_of(&self, key: Key) -> Option<&'static CommandRow> {
        let there =
            |row: &&CommandRow| row.section == Section::Explore && row.command != Command::Climb;
        COMMANDS.iter().filter(there).find(|row| self.of(row) == [key])
    }

    /// Gives a foot pedal's key to what comes next: on the neck the next shape of the ladder, in a
    /// list the next line, unless the key has another meaning there.
    pub fn use_pedal(&mut self, pedal: Pedal) {
        let Some(key) = pedal.key() else { return };
        self.0.add(Section::Explore.name(), Command::Climb, key);
        for section in [Section::List, Section::Picking] {
            let searches = section == Section::Picking && key.typed().is_some();
            if !searches && self.command(section, key).is_none() {
                self.0.add(section.name(), Command::Down, key);
            }
        }
    }

    /// What a key does in a section.
    #[must_use]
    pub fn command(&self, section: Section, key: Key) -> Option<Command> {
        self.0.command(section.name(), key)
    }

    /// The keys of a command, the one to show first.
    #[must_use]
    pub fn of(&self, row: &CommandRow) -> &[Key] {
        self.0.keys(row.section.name(), row.command)
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
            assert!(names.insert((row.section, row.name)), "{} stands twice", row.name);
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
            assert_eq!(command, Some(Command::QuitAtOnce), "{text}");
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

    #[test]
    fn a_pedal_goes_on_where_its_key_is_free() {
        let what = |key: &str| {
            let (mut keys, pedal) = (Keys::built_in().0, key.parse::<Pedal>().unwrap());
            keys.use_pedal(pedal);
            [Section::Explore, Section::List, Section::Picking]
                .map(|section| keys.command(section, pedal.key()?))
        };
        let (climb, down) = (Some(Command::Climb), Some(Command::Down));
        assert_eq!(what("f12"), [climb, down, down]);
        assert_eq!(what("pagedown"), [climb, Some(Command::PageDown), Some(Command::PageDown)]);
        // A letter searches where letters search.
        assert_eq!(what("x"), [climb, down, None]);
        assert_eq!(what("none"), [None; 3]);
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
