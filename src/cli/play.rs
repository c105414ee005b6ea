//! Playing what a command answers.

use std::process::ExitCode;
use std::thread;
use std::time::Duration;

use super::complain::complain;
use super::interrupt::Interrupt;
use super::outcome::Failure;
use super::print::print;
use crate::sound::{Frames, Player, PlayerState, Samples, SoundError, SoundPlaces, SystemPlayer};

/// How often it is looked whether it still plays.
const LOOK: Duration = Duration::from_millis(20);

/// Plays to the end, and prints the text as soon as it is heard.
///
/// Ctrl-C, and being asked to end, fades it; the status is then that of the signal.
///
/// # Errors
///
/// Where nothing can be heard; nothing is printed then.
pub(super) fn play(text: &str, samples: Box<dyn Samples>) -> Result<ExitCode, Failure> {
    let interrupt = Interrupt::watch();
    let player = SystemPlayer::new(SoundPlaces::from_environment());
    player.start(samples);
    while player.state().is_sounding() && player.position() == Frames(0) {
        if let Some(status) = interrupted(&interrupt, &player) {
            return Ok(status);
        }
    }
    if let PlayerState::Failed(error) = player.state() {
        return Err(Failure::Input(unheard(&error)));
    }
    let printed = print(text);
    while player.state().is_sounding() {
        if let Some(status) = interrupted(&interrupt, &player) {
            return Ok(status);
        }
    }
    if let PlayerState::Failed(error) = player.state() {
        complain(&error);
        return Ok(ExitCode::FAILURE);
    }
    Ok(printed)
}

/// Waits for a moment; where a signal asked to end, until it is silent.
fn interrupted(interrupt: &Interrupt, player: &SystemPlayer) -> Option<ExitCode> {
    thread::sleep(LOOK);
    let status = interrupt.status()?;
    player.silence();
    Some(ExitCode::from(status))
}

fn unheard(error: &SoundError) -> String {
    format!(
        "{error}; expected a sound server or a program that plays; fretloom line --wav FILE writes \
         what would be heard"
    )
}
