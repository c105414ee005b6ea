//! The one table of commands: footer, help page, key file and tests come from it.
//!
//! To add a command: a variant of the enum of its section, a row of [`COMMANDS`], a line in
//! `assets/keys.toml`; the compiler then asks for the branch that carries it out.

mod changes;
mod common;
mod explore;
mod keepers;
mod line;
mod listen;
mod practice;
mod row;
mod section;
mod sound;
mod table;

pub use changes::ChangesCommand;
pub use common::{ListCommand, ProgramCommand, TypingCommand};
pub use explore::ExploreCommand;
pub use keepers::KeepersCommand;
pub use line::LineCommand;
pub use listen::ListenCommand;
pub use practice::PracticeCommand;
pub use row::{Command, CommandRow};
pub use section::Section;
pub use sound::SoundCommand;
pub use table::COMMANDS;
