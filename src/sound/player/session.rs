//! One thing that is played: what its thread and those who ask about it both know.

use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use super::super::samples::Frames;
use super::error::SoundError;
use super::heard::Heard;
use super::state::PlayerState;
use super::voice::Voice;
use super::way::Way;

/// One thing that is played, from the wish to its end.
#[derive(Default)]
pub(super) struct Session {
    known: Mutex<Known>,
    changed: Condvar,
}

#[derive(Default)]
struct Known {
    state: PlayerState,
    heard: Heard,
    way: Option<Way>,
    /// When it was asked to stop.
    stop: Option<Instant>,
}

/// A way out that was asked to stop and has not after this time is left to itself.
const STOPPED_AT_LAST: Duration = Duration::from_millis(220);

impl Session {
    /// A session whose way out is about to be opened.
    pub(super) fn opening() -> Arc<Session> {
        let session = Session::default();
        session.known().state = PlayerState::Opening;
        Arc::new(session)
    }

    fn known(&self) -> MutexGuard<'_, Known> {
        self.known.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Asks it to stop. What is not open yet will never sound.
    pub(super) fn ask_to_stop(&self) {
        let mut known = self.known();
        known.stop.get_or_insert_with(Instant::now);
        match known.state {
            PlayerState::Opening => known.state = PlayerState::Silent,
            PlayerState::Playing => known.state = PlayerState::Stopping,
            PlayerState::Silent
            | PlayerState::Stopping
            | PlayerState::Ended
            | PlayerState::Failed(_) => {}
        }
        self.changed.notify_all();
    }

    /// Was it asked to stop?
    pub(super) fn is_to_stop(&self) -> bool {
        self.known().stop.is_some()
    }

    /// Was it asked to stop so long ago that it is given up?
    pub(super) fn is_given_up(&self) -> bool {
        self.known().stop.is_some_and(|asked| asked.elapsed() > STOPPED_AT_LAST)
    }

    /// The way out is open: from now on it is heard. `false` where it was asked to stop meanwhile.
    pub(super) fn play_by(&self, way: Way) -> bool {
        let mut known = self.known();
        let wanted = known.stop.is_none();
        if wanted {
            (known.state, known.way) = (PlayerState::Playing, Some(way));
        }
        wanted
    }

    /// So much has been given away since the start.
    pub(super) fn give(&self, given: Frames) {
        self.known().heard.give(given);
    }

    /// So much had been heard at that moment.
    pub(super) fn measure(&self, frames: Frames, at: Instant) {
        self.known().heard.measure(frames, at);
    }

    /// It is over, and this is what became of it.
    pub(super) fn finish(&self, result: Result<(), SoundError>) {
        let mut known = self.known();
        known.state = match result {
            _ if known.stop.is_some() => PlayerState::Silent,
            Ok(()) => {
                known.heard.complete();
                PlayerState::Ended
            }
            Err(error) => PlayerState::Failed(error),
        };
        self.changed.notify_all();
    }

    /// Waits until it does not sound any more, no longer than this.
    pub(super) fn wait_until_over(&self, limit: Duration) {
        let sounds = |known: &mut Known| known.state.is_sounding();
        let _ = self.changed.wait_timeout_while(self.known(), limit, sounds);
    }

    pub(super) fn position(&self) -> Frames {
        self.known().heard.position(Instant::now())
    }

    pub(super) fn state(&self) -> PlayerState {
        self.known().state.clone()
    }

    pub(super) fn way(&self) -> Option<Way> {
        self.known().way.clone()
    }

    /// The next samples; from the moment on when it was asked to stop they fade.
    pub(super) fn take(&self, voice: &mut Voice, block: &mut [f32]) -> usize {
        if self.is_to_stop() {
            voice.fade();
        }
        let given = voice.fill(block);
        self.give(voice.given());
        given
    }
}
