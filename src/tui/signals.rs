//! Signals: the end from outside.
//!
//! A fatal signal is answered by its own thread, not through the channel: the main thread may be
//! stuck, and once the terminal has closed the terminal library's blocking read spins at full CPU,
//! so waiting politely for anyone would be wrong. On systems other than Unix nothing here does
//! anything: closing the window ends a process there, and Ctrl-C is a key like any other.

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

    /// How long a dying program waits for its main thread, and then tries to write to a terminal
    /// that may not be reading.
    const PATIENCE: Duration = Duration::from_secs(1);

    /// Starts the thread that answers signals.
    ///
    /// The terminal library reports resizes too, but only once its reader has started: a window
    /// that is moved into place in the program's first milliseconds would keep a wrong frame.
    ///
    /// The thread stays for the rest of the process: a signal that comes
    /// after the screens have closed still ends the program with its status.
    pub(in super::super) fn watch(wake: SyncSender<Wake>) -> io::Result<()> {
        // Registered here and not in the thread, so that no signal falls between the two.
        let mut signals = Signals::new([SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGCONT, SIGWINCH])?;
        thread::Builder::new().name("signals".into()).spawn(move || {
            for signal in signals.forever() {
                match signal {
                    // Never block here: a full channel means the main thread is behind and
                    // will draw anyway, and this thread must stay free for the next signal.
                    SIGCONT => drop(wake.try_send(Wake::Continued)),
                    SIGWINCH => drop(wake.try_send(Wake::Resized)),
                    fatal => end(fatal, &wake),
                }
            }
        })?;
        Ok(())
    }

    /// Asks the main thread to save what should outlast the program, gives the terminal back, and
    /// ends with the status that a shell expects of that signal. A main thread that is stuck is
    /// waited for no longer than [`PATIENCE`].
    fn end(signal: i32, wake: &SyncSender<Wake>) -> ! {
        let (done, kept) = mpsc::sync_channel(1);
        if wake.try_send(Wake::Ending(done)).is_ok() {
            let _ = kept.recv_timeout(PATIENCE);
        }
        terminal::give_back_within(PATIENCE);
        process::exit(128 + signal)
    }
}
