//! The loop: wait, update, draw.
//!
//! One queue brings every reason to wake up, and waiting for it is the only waiting: an idle
//! program uses no CPU. After a wake-up everything that has arrived is handled before one frame is
//! drawn, and none is drawn while the terminal reads the one before. So a fast hand or a slow
//! terminal never makes a queue of frames.
//!
//! What would keep the keys waiting is done on other threads: work of the app (`jobs`), and playing,
//! which is asked how far it is (`sound`). Nothing ticks while nothing sounds.

mod app;
mod display;
mod error;
mod jobs;
mod serve;
mod sound;
#[cfg(test)]
mod tests;

use std::sync::Arc;

pub use app::{App, Effect};
pub use error::RunError;
pub use jobs::{Cancelled, Job, Subject};

use super::terminal::{TerminalError, TerminalGuard};
use super::wakes::Wakes;
use super::{input, signals};
use crate::sound::Player;
use serve::Runtime;
use sound::Sound;

/// Runs an app on the terminal until it quits; what it plays is heard through `player`. To be called
/// once in a process.
///
/// What sounds ends before the program stops or ends, whatever ends it.
///
/// `keep` is called with the app before the program ends, to save what should outlast it.
///
/// A fatal signal does not return from here. The thread that answers it waits a second at most until `keep`
/// was called, gives the terminal back and ends the process with status 128 + the signal's number.
///
/// # Errors
///
/// When there is no terminal, or it fails while the app runs; the terminal has been given back.
pub fn run<A: App>(
    app: &mut A,
    player: Arc<dyn Player>,
    keep: impl FnMut(&A),
) -> Result<(), RunError> {
    let wakes = Arc::new(Wakes::default());
    // Before the terminal is taken, so that no signal finds it taken and unwatched.
    signals::watch(Arc::clone(&wakes), Arc::clone(&player)).map_err(TerminalError::Io)?;
    let terminal = TerminalGuard::enter(Arc::clone(&wakes))?;
    input::start(Arc::clone(&wakes)).map_err(TerminalError::Io)?;
    let terminal = Runtime::new(app, keep, terminal, Sound::new(player), wakes).run()?;
    Ok(terminal.leave().map_err(TerminalError::Io)?)
}
