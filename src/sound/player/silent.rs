//! A player that nobody hears.

use std::fmt;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use super::super::samples::{Frames, Samples};
use super::Player;
use super::clocked::Clocked;
use super::state::PlayerState;

/// Plays into nothing, by a clock that its owner moves: a test says what time it is.
///
/// ```
/// use std::time::Duration;
/// use fretloom::sound::{Frames, Player, PlayerState, Samples, SilentPlayer};
///
/// /// A second of nothing.
/// struct Second(usize);
/// impl Samples for Second {
///     fn fill(&mut self, block: &mut [f32]) -> usize {
///         let given = block.len().min(self.0);
///         block[..given].fill(0.0);
///         self.0 -= given;
///         given
///     }
/// }
///
/// let player = SilentPlayer::new();
/// player.start(Box::new(Second(48_000)));
/// player.advance(Duration::from_millis(250));
/// assert_eq!(player.position(), Frames(12_000));
/// player.advance(Duration::from_secs(1));
/// assert_eq!(player.state(), PlayerState::Ended);
/// ```
#[derive(Default)]
pub struct SilentPlayer(Mutex<Clocked>);

impl SilentPlayer {
    /// A player whose clock stands still.
    #[must_use]
    pub fn new() -> SilentPlayer {
        SilentPlayer::default()
    }

    /// Lets time pass.
    pub fn advance(&self, time: Duration) {
        self.with(|clocked| clocked.advance(time, |_heard| ()));
    }

    fn with<T>(&self, act: impl FnOnce(&mut Clocked) -> T) -> T {
        act(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Player for SilentPlayer {
    fn start(&self, samples: Box<dyn Samples>) {
        self.with(|clocked| clocked.start(samples));
    }

    fn stop(&self) {
        self.with(Clocked::stop);
    }

    fn position(&self) -> Frames {
        self.with(|clocked| clocked.position())
    }

    fn state(&self) -> PlayerState {
        self.with(|clocked| clocked.state())
    }

    /// Nobody hears it, so there is nothing to wait for: the fade passes at once.
    fn silence(&self) {
        self.stop();
        self.advance(super::voice::FADE);
    }
}

impl fmt::Debug for SilentPlayer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("SilentPlayer").field(&self.state()).finish()
    }
}
