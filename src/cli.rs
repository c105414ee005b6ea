//! Commands: read the arguments, ask `answer`, print.
//!
//! Exit status 0 when done; 1 when the input was at fault, with one message on standard error and
//! nothing on standard output; 2 for wrong usage. `check` prints what it was asked for, and has
//! status 1 too where that is problems.

mod answered;
mod args;
mod call;
mod commands;
mod complain;
mod defaults;
mod files;
mod interrupt;
mod keep;
mod line_files;
mod misuse;
mod new_files;
mod opening;
mod outcome;
mod own_files;
mod page_files;
mod play;
mod player;
mod print;
mod queries;
mod resume;
mod run;
mod screen;
mod shell;
mod text;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{CommandFactory, FromArgMatches};
use fretloom_theory::ReadChord;

pub use args::Cli;
use complain::complain;
use outcome::{Failure, Outcome};
use player::Player;
use print::{print, print_usage};

use crate::glyphs::printable_line;
use crate::settings::Settings;
use crate::words::nearest;

/// The whole program: arguments in, words and a status out.
#[must_use]
pub fn main() -> ExitCode {
    let player = Player::from_environment();
    let arguments: Vec<OsString> = std::env::args_os().collect();
    let cli = parse(&arguments, &player.settings);
    let outcome = cli.and_then(|cli| run::run(&cli, player));
    match outcome {
        Ok(Outcome::Shown) => ExitCode::SUCCESS,
        Ok(Outcome::Print(text)) => print(&text),
        Ok(Outcome::Played(status)) => status,
        Ok(Outcome::PrintProblems(text)) => {
            print(&text);
            ExitCode::FAILURE
        }
        Err(Failure::Input(message)) => {
            complain(&message);
            ExitCode::FAILURE
        }
        Err(Failure::Usage(error)) => print_usage(&error),
    }
}

fn parse(arguments: &[OsString], settings: &Settings) -> Result<Cli, Failure> {
    let mut command = defaults::settled(Cli::command(), settings);
    let matches = command.try_get_matches_from_mut(arguments);
    let matches = matches.map_err(|error| usage(error, &mut command, arguments))?;
    let cli = Cli::from_arg_matches(&matches);
    let mut cli = cli.map_err(|error| Failure::Usage(error.format(&mut command)))?;
    cli.typed = args::Typed::of(&matches);
    match (&cli.chord, &cli.command) {
        (Some(word), Some(_)) => Err(misplaced_chord(word)),
        (Some(word), None) if !cli.more.is_empty() => Err(unknown_command(word)),
        (Some(word), None) if is_mistyped_command(word) => Err(unknown_command(word)),
        _ => match misuse::misused(&cli, &matches) {
            Some(message) => Err(wrong_usage(ErrorKind::ArgumentConflict, &message)),
            None if cli.common.capo.is_none() && cli.common.capo_strings.is_some() => {
                let expected = "expected the capo's fret too, as in --capo 2 --capo-strings 5-4-3";
                Err(wrong_usage(ErrorKind::MissingRequiredArgument, expected))
            }
            None => Ok(cli),
        },
    }
}

/// What clap says of these arguments. It quotes them, so it is asked of their harmless form, which is
/// wrong for the same reason.
fn usage(error: clap::Error, command: &mut clap::Command, arguments: &[OsString]) -> Failure {
    let harmless = arguments.iter().map(|argument| printable_line(&argument.to_string_lossy()));
    let again = command.try_get_matches_from_mut(harmless).err();
    Failure::Usage(again.filter(|again| again.kind() == error.kind()).unwrap_or(error))
}

fn misplaced_chord(word: &str) -> Failure {
    let expected = "expected it after the command, as in fretloom pairs Gmaj7";
    wrong_usage(ErrorKind::ArgumentConflict, &format!("\"{word}\" stands first; {expected}"))
}

/// A word that is no chord, yet nearly a command.
fn is_mistyped_command(word: &str) -> bool {
    word.parse::<ReadChord>().is_err() && nearest_command(word).is_some()
}

fn unknown_command(word: &str) -> Failure {
    let expected = nearest_command(word).map_or_else(
        || "expected one chord, or a command and its chord".to_owned(),
        |name| format!("did you mean {name}?"),
    );
    let message = format!("\"{word}\" is no command; {expected}");
    wrong_usage(ErrorKind::InvalidSubcommand, &message)
}

fn nearest_command(word: &str) -> Option<String> {
    let command = Cli::command();
    let names = command.get_subcommands().map(clap::Command::get_name);
    nearest(word, names).map(str::to_owned)
}

fn wrong_usage(kind: ErrorKind, message: &str) -> Failure {
    Failure::Usage(Cli::command().error(kind, printable_line(message)))
}
