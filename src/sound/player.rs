//! How sound leaves the program.
//!
//! A [`Player`] plays one thing at a time. It opens its way out only when it is asked to play, away from
//! whoever asks, and says afterwards what became of it.

mod clocked;
#[cfg(any(target_os = "macos", target_os = "windows"))]
mod device;
pub(super) mod error;
mod heard;
mod outlet;
pub(super) mod places;
#[cfg(all(unix, not(target_os = "macos")))]
mod program;
#[cfg(all(unix, not(target_os = "macos")))]
mod served;
#[cfg(all(unix, not(target_os = "macos")))]
mod server;
mod session;
pub(super) mod silent;
pub(super) mod state;
pub(super) mod system;
#[cfg(test)]
mod tests;
mod voice;
pub(super) mod wav;
pub(super) mod way;
pub(super) mod ways;

use std::thread;
use std::time::{Duration, Instant};

use super::samples::{Frames, Samples};
use state::PlayerState;

/// Plays samples.
///
/// It is asked from several threads: a screen starts it, and whoever ends the program stops it. Nothing
/// but [`Player::silence`] makes the caller wait.
pub trait Player: Send + Sync {
    /// Plays these samples from their beginning. What sounds is faded first, as by [`Player::stop`].
    fn start(&self, samples: Box<dyn Samples>);

    /// Fades what sounds and ends it, within 150 ms and without a click.
    fn stop(&self);

    /// How much of the samples that were started last has been heard. It never goes back.
    fn position(&self) -> Frames;

    /// What it is doing.
    fn state(&self) -> PlayerState;

    /// The way by which it is heard, in words; none before that is known.
    fn way(&self) -> Option<String> {
        None
    }

    /// Stops, and waits until nothing is heard any more: before the program stops or ends. A way out that
    /// does not answer is waited for no longer than 300 ms.
    fn silence(&self) {
        self.stop();
        let asked = Instant::now();
        while self.state().is_sounding() && asked.elapsed() < PATIENCE {
            thread::sleep(Duration::from_millis(2));
        }
    }
}

/// Twice what stopping takes.
const PATIENCE: Duration = Duration::from_millis(300);
