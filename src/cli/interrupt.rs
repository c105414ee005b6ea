//! Signals that ask a command to end while it plays. On systems other than Unix they end it at once.

#[cfg(unix)]
pub(super) use unix::Interrupt;

#[cfg(not(unix))]
pub(super) use others::Interrupt;

#[cfg(unix)]
mod unix {
    use std::sync::Arc;
    use std::sync::atomic::{AtomicUsize, Ordering};

    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::flag;

    /// The signal that came, if one has.
    pub(in super::super) struct Interrupt(Arc<AtomicUsize>);

    impl Interrupt {
        /// Takes note of signals from now on, in place of ending.
        pub(in super::super) fn watch() -> Interrupt {
            let signal = Arc::new(AtomicUsize::new(0));
            for number in [SIGHUP, SIGINT, SIGTERM] {
                // One that cannot be watched ends the command as it would without this.
                let _ = flag::register_usize(number, Arc::clone(&signal), number as usize);
            }
            Interrupt(signal)
        }

        /// The status that a shell expects where a signal has asked to end.
        pub(in super::super) fn status(&self) -> Option<u8> {
            let signal = u8::try_from(self.0.load(Ordering::Relaxed)).ok()?;
            (signal > 0).then(|| 128 + signal)
        }
    }
}

#[cfg(not(unix))]
mod others {
    /// No signal is ever noted.
    pub(in super::super) struct Interrupt;

    impl Interrupt {
        pub(in super::super) fn watch() -> Interrupt {
            Interrupt
        }

        pub(in super::super) fn status(&self) -> Option<u8> {
            None
        }
    }
}
