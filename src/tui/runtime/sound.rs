//! What the app plays, and when to ask how far it is.

use std::sync::Arc;
use std::time::{Duration, Instant};

use crate::sound::{Player, Samples};
use crate::tui::event::SoundNews;

/// How often it is asked how far the sound is: so often that nobody sees a cursor come late.
const TICK: Duration = Duration::from_millis(20);

/// The player of sound, while the app runs. Dropping this makes it silent.
pub(super) struct Sound {
    player: Arc<dyn Player>,
    /// When to ask next; never while nothing sounds.
    next_look: Option<Instant>,
    is_over: bool,
}

impl Sound {
    pub(super) fn new(player: Arc<dyn Player>) -> Sound {
        Sound { player, next_look: None, is_over: false }
    }

    pub(super) fn play(&mut self, samples: Box<dyn Samples>) {
        if !self.is_over {
            self.player.start(samples);
            self.next_look = Some(Instant::now());
        }
    }

    pub(super) fn stop(&self) {
        self.player.stop();
    }

    /// Stops, and waits until nothing is heard.
    pub(super) fn silence(&self) {
        self.player.silence();
    }

    /// Stops for good: nothing sounds any more.
    pub(super) fn end(&mut self) {
        self.is_over = true;
        self.silence();
    }

    /// Until when one may sleep; for ever while nothing sounds.
    pub(super) fn next_look(&self) -> Option<Instant> {
        self.next_look
    }

    /// How it is going, if it is time to ask.
    pub(super) fn news(&mut self) -> Option<SoundNews> {
        let now = Instant::now();
        self.next_look.filter(|due| *due <= now)?;
        let state = self.player.state();
        self.next_look = state.is_sounding().then_some(now + TICK);
        Some(SoundNews { state, position: self.player.position(), way: self.player.way() })
    }
}

impl Drop for Sound {
    fn drop(&mut self) {
        self.end();
    }
}
