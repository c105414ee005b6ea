//! The player of this machine.

use std::fmt;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::Duration;

use super::super::samples::{Frames, Samples};
use super::Player;
use super::error::SoundError;
use super::outlet::play;
use super::places::SoundPlaces;
use super::session::Session;
use super::state::PlayerState;

/// Plays by whatever there is on this machine: a sound server, else a program that plays; on macOS and
/// Windows the system's own output.
///
/// It looks for them each time it is asked to play, on a thread of its own. So nothing is opened before,
/// and a server that has come or gone meanwhile is noticed.
pub struct SystemPlayer {
    places: SoundPlaces,
    session: Mutex<Option<Arc<Session>>>,
}

impl SystemPlayer {
    /// A player that will look there, and has not played yet.
    #[must_use]
    pub fn new(places: SoundPlaces) -> SystemPlayer {
        SystemPlayer { places, session: Mutex::default() }
    }

    fn session(&self) -> MutexGuard<'_, Option<Arc<Session>>> {
        self.session.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// How long the next thing waits for the fade of the one before.
const FADED_AT_LAST: Duration = Duration::from_millis(300);

impl Player for SystemPlayer {
    fn start(&self, samples: Box<dyn Samples>) {
        let mut current = self.session();
        let before = current.take();
        if let Some(before) = &before {
            before.ask_to_stop();
        }
        let session = Session::opening();
        *current = Some(Arc::clone(&session));
        let (playing, places) = (Arc::clone(&session), self.places.clone());
        let thread = thread::Builder::new().name("sound".into()).spawn(move || {
            if let Some(before) = before {
                before.wait_until_over(FADED_AT_LAST);
            }
            playing.finish(play(samples, &playing, &places));
        });
        if let Err(error) = thread {
            session.finish(Err(SoundError::Device(crate::words::in_plain_words(&error))));
        }
    }

    fn stop(&self) {
        if let Some(session) = self.session().as_ref() {
            session.ask_to_stop();
        }
    }

    fn position(&self) -> Frames {
        self.session().as_ref().map_or(Frames::default(), |session| session.position())
    }

    fn state(&self) -> PlayerState {
        self.session().as_ref().map_or(PlayerState::Silent, |session| session.state())
    }

    fn way(&self) -> Option<String> {
        self.session().as_ref().and_then(|session| session.way()).map(|way| way.to_string())
    }

    fn silence(&self) {
        let session = self.session().clone();
        if let Some(session) = session {
            session.ask_to_stop();
            session.wait_until_over(FADED_AT_LAST);
        }
    }
}

impl Drop for SystemPlayer {
    /// What sounds fades away.
    fn drop(&mut self) {
        self.stop();
    }
}

impl fmt::Debug for SystemPlayer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("SystemPlayer").field(&self.state()).finish()
    }
}
