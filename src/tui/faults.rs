//! Faults on request: a testing aid.
//!
//! That a panic or a hang leaves a usable terminal can only be shown by a program that panics or
//! hangs. `FRETLOOM_PANIC_ON_KEY=x` makes the key `x` panic the main thread, `FRETLOOM_HANG_ON_KEY`
//! makes its key hang it. Keys are written as in the key files. Unset, neither costs anything.

use std::env;
use std::thread;

use super::event::Event;
use super::key::Key;

/// The keys that break the program, usually none.
pub(super) struct Faults {
    panic: Option<Key>,
    hang: Option<Key>,
}

impl Faults {
    /// Reads the environment; a key that cannot be read is no key.
    pub(super) fn from_environment() -> Self {
        Faults { panic: key_in("FRETLOOM_PANIC_ON_KEY"), hang: key_in("FRETLOOM_HANG_ON_KEY") }
    }

    /// Panics or hangs if this event was chosen for it.
    pub(super) fn strike(&self, event: &Event) {
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
}

fn key_in(variable: &str) -> Option<Key> {
    env::var(variable).ok()?.parse().ok()
}

#[expect(clippy::panic, reason = "panicking is what this is for")]
fn panic_on_request(key: Key) {
    panic!("FRETLOOM_PANIC_ON_KEY is {key}");
}
