//! Running one command: what it prints, what it does with the player's own files, or the screen.

use super::answered::Answered;
use super::args::{Cli, OwnCommand, Request};
use super::call::{Call, printed, say_all};
use super::outcome::{Failure, Outcome};
use super::play::play;
use super::player::Player;
use super::{own_files, screen, shell, text};
use crate::answer::CheckAnswer;

pub(super) fn run(cli: &Cli, player: Player) -> Result<Outcome, Failure> {
    match &cli.command {
        None => screen::open(cli, player),
        Some(Request::Own(command)) => own(cli, command, &player),
        Some(Request::Keep(command)) => {
            say_all(&player.settings_problems);
            let call = Call { cli, library: player.library, data: player.folders.data };
            Ok(Outcome::Print(call.keep(command)?))
        }
        Some(Request::Print(command)) => {
            say_all(&player.settings_problems);
            let call = Call { cli, library: player.library, data: player.folders.data };
            let Answered { text, sound } = call.print(command)?;
            Ok(match sound {
                Some(samples) => Outcome::Played(play(&text, samples)?),
                None => Outcome::Print(text),
            })
        }
    }
}

fn own(cli: &Cli, command: &OwnCommand, player: &Player) -> Result<Outcome, Failure> {
    Ok(match command {
        OwnCommand::Check => {
            let answer = CheckAnswer { problems: player.problems() };
            let text = printed(cli, &answer, text::check);
            let sound = answer.problems.is_empty();
            if sound { Outcome::Print(text) } else { Outcome::PrintProblems(text) }
        }
        OwnCommand::Settings(wanted) => {
            own_files::settings(wanted, player, |answer| printed(cli, answer, text::settings))?
        }
        OwnCommand::Completions { shell } => Outcome::Print(shell::completions(*shell)),
        OwnCommand::Manual { command } => Outcome::Print(shell::manual(command.as_deref())?),
    })
}
