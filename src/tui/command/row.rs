//! One command with all that is told of it.

use super::changes::ChangesCommand;
use super::common::{ListCommand, ProgramCommand, TypingCommand};
use super::explore::ExploreCommand;
use super::keepers::KeepersCommand;
use super::line::LineCommand;
use super::listen::ListenCommand;
use super::practice::PracticeCommand;
use super::section::Section;
use super::sound::SoundCommand;

/// Something that a key can ask for, by who does it.
///
/// Each screen has a variant of its own, with an enum that its `update` matches: a command that
/// nobody carries out does not compile.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Command {
    /// The program itself does it.
    Program(ProgramCommand),
    /// The explorer does it.
    Explore(ExploreCommand),
    /// The line screen does it.
    Line(LineCommand),
    /// The changes screen does it.
    Changes(ChangesCommand),
    /// The keepers screen does it.
    Keepers(KeepersCommand),
    /// The keepers screen does it while it asks what is heard.
    Listen(ListenCommand),
    /// What is practised on the keepers screen does it.
    Practice(PracticeCommand),
    /// The page of sound does it.
    Sound(SoundCommand),
    /// The field does it in which text is typed.
    Typing(TypingCommand),
    /// The list does it that lies over the screen.
    List(ListCommand),
}

/// One row of the table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct CommandRow {
    /// What is asked for.
    pub command: Command,
    /// Where its keys are heard.
    pub section: Section,
    /// The section that lists it in key files and on the help page.
    pub listed: Section,
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
