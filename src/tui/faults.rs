//! Deliberate faults, for tests.
//!
//! Only a program that panics or hangs can show that the terminal stays usable then. With
//! `FRETLOOM_PANIC_ON_KEY=x` the key `x` makes the main thread panic; with `FRETLOOM_HANG_ON_KEY=x`
//! it makes the main thread hang. With `FRETLOOM_PANIC_IN_JOB_ON_KEY=x` it starts a job that panics.
//! Keys are written as in the key files. Unset, none of them does anything.

use std::env;
use std::thread;

use super::event::Event;
use super::key::Key;

/// The keys that make the program fail, usually none.
pub(super) struct Faults {
    panic: Option<Key>,
    hang: Option<Key>,
    panic_in_job: Option<Key>,
}

impl Faults {
    /// Reads the environment; a key that cannot be read is ignored.
    pub(super) fn from_environment() -> Self {
        Faults {
            panic: key_in("FRETLOOM_PANIC_ON_KEY"),
            hang: key_in("FRETLOOM_HANG_ON_KEY"),
            panic_in_job: key_in("FRETLOOM_PANIC_IN_JOB_ON_KEY"),
        }
    }

    /// Panics or hangs if this event is the key for it.
    pub(super) fn trigger(&self, event: &Event) {
        let Event::Key(key) = event else { return };
        if self.hang.as_ref() == Some(key) {
            loop {
                thread::park();
            }
        }
        if self.panic.as_ref() == Some(key) {
            panic_on_request(*key);
        }
    }

    /// The key, if this event is the key for a job that panics.
    pub(super) fn key_for_job(&self, event: &Event) -> Option<Key> {
        let Event::Key(key) = event else { return None };
        Some(*key).filter(|_| self.panic_in_job.as_ref() == Some(key))
    }
}

fn key_in(variable: &str) -> Option<Key> {
    env::var(variable).ok()?.parse().ok()
}

#[expect(clippy::panic, reason = "it is there to panic")]
pub(super) fn panic_on_request(key: Key) -> ! {
    panic!("the key for a panic is {key}");
}
