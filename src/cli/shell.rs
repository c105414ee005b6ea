//! What the system around the program asks for: completions and pages of the manual.

use std::io;

use clap::{Command, CommandFactory};
use clap_complete::Shell;
use clap_mangen::Man;

use super::args::Cli;
use super::outcome::Failure;
use crate::words::nearest;

/// Completions of every command and option, as the shell reads them.
pub(super) fn completions(shell: Shell) -> String {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Cli::command(), "fretloom", &mut script);
    String::from_utf8_lossy(&script).into_owned()
}

/// The page of the program, or of one of its commands, as `man` reads it.
pub(super) fn manual(command: Option<&str>) -> Result<String, Failure> {
    let mut program = Cli::command();
    program.build();
    let page = match command {
        None => page(program),
        Some(name) => page(under(&program, name)?),
    };
    page.map_err(|error| Failure::Input(format!("the page cannot be made: {error}")))
}

fn under(program: &Command, name: &str) -> Result<Command, Failure> {
    let found = program.find_subcommand(name).cloned();
    // A page is called by the program and the command, as in fretloom-pairs(1).
    let found = found.map(|command| command.name(format!("fretloom-{name}")));
    found.ok_or_else(|| {
        let names: Vec<&str> = program.get_subcommands().map(Command::get_name).collect();
        let near = nearest(name, names.iter().copied());
        let near = near.map(|near| format!("; did you mean {near}?")).unwrap_or_default();
        let all = names.join(", ");
        Failure::Input(format!("there is no command \"{name}\"; expected one of {all}{near}"))
    })
}

fn page(command: Command) -> io::Result<String> {
    let mut page = Vec::new();
    Man::new(command).render(&mut page)?;
    Ok(String::from_utf8_lossy(&page).into_owned())
}
