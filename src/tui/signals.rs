//! Signals from the system: the end of the program, a continued process, a new window size.
//!
//! The signal thread ends the program itself. It cannot leave that to the main thread, which may be
//! stuck: once the terminal has closed, the terminal library's blocking read spins at full CPU.
//! On systems other than Unix nothing here does anything: closing the window ends a process there,
//! and Ctrl-C is a key like any other.

use std::io;
use std::sync::mpsc::SyncSender;

use super::event::Wake;

#[cfg(unix)]
pub(super) use unix::watch;

#[cfg(not(unix))]
pub(super) fn watch(_wake: SyncSender<Wake>) -> io::Result<()> {
    Ok(())
}

#[cfg(unix)]
mod unix {
    use std::sync::mpsc;
    use std::time::Duration;
    use std::{process, thread};

    use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGWINCH};
    use signal_hook::iterator::Signals;

    use super::super::terminal;
    use super::{SyncSender, Wake, io};

    /// How long an ending program waits for its main thread, and then again for a terminal that may
    /// not be reading.
    const PATIENCE: Duration = Duration::from_secs(1);

    /// Starts the thread that answers signals.
    ///
    /// The terminal library reports new sizes too, but only once its reader has started. A window
    /// that is resized in the program's first milliseconds would keep a frame of the wrong size.
    ///
    /// The thread stays for the rest of the process: a signal that comes after the terminal was
    /// given back still ends the program with the right status.
    pub(in super::super) fn watch(wake: SyncSender<Wake>) -> io::Result<()> {
        // Registered before the thread starts, so that no signal is missed between the two.
        let mut signals = Signals::new([SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGCONT, SIGWINCH])?;
        thread::Builder::new().name("signals".into()).spawn(move || {
            for signal in signals.forever() {
                match signal {
                    // Never block here: this thread must stay free for the next signal. Where the
                    // channel is full, the main thread is behind and will draw anyway.
                    SIGCONT => drop(wake.try_send(Wake::Continued)),
                    SIGWINCH => drop(wake.try_send(Wake::Resized)),
                    fatal => end(fatal, &wake),
                }
            }
        })?;
        Ok(())
    }

    /// Has the main thread save what should last, gives the terminal back, and ends the process
    /// with the status that a shell expects of that signal. A main thread that is stuck delays this
    /// by [`PATIENCE`] at most.
    fn end(signal: i32, wake: &SyncSender<Wake>) -> ! {
        let (done, saved) = mpsc::sync_channel(1);
        if wake.try_send(Wake::Ending(done)).is_ok() {
            let _ = saved.recv_timeout(PATIENCE);
        }
        terminal::give_back_within(PATIENCE);
        process::exit(128 + signal)
    }
}
