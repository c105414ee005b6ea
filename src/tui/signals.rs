//! Signals from the system: the end of the program, a stopped or continued process, a new window
//! size.
//!
//! The thread that receives a fatal signal ends the program itself. It cannot leave that to the main
//! thread, which may be stuck. On systems other than Unix nothing here does anything: closing the
//! window ends a process there, and Ctrl-C is a key like any other.

use std::io;
use std::sync::Arc;

use super::wakes::Wakes;
use crate::sound::Player;

#[cfg(unix)]
pub(super) use unix::watch;

#[cfg(not(unix))]
pub(super) fn watch(_wakes: Arc<Wakes>, _player: Arc<dyn Player>) -> io::Result<()> {
    Ok(())
}

#[cfg(unix)]
mod unix {
    use std::ffi::c_int;
    use std::sync::mpsc;
    use std::time::Duration;
    use std::{process, thread};

    use nix::sys::signal::{SigSet, Signal};
    use signal_hook::consts::{
        SIGABRT, SIGALRM, SIGCONT, SIGHUP, SIGINT, SIGPROF, SIGQUIT, SIGSYS, SIGTERM, SIGTRAP,
        SIGUSR1, SIGUSR2, SIGVTALRM, SIGWINCH, SIGXCPU, SIGXFSZ,
    };
    use signal_hook::iterator::Signals;

    use super::super::event::Wake;
    use super::super::job_control::Stop;
    use super::super::terminal;
    use super::{Arc, Player, Wakes, io};

    /// How long an ending program waits for its main thread.
    const PATIENCE: Duration = Duration::from_secs(1);

    /// The signals that end a process, but for the [`FAULTS`], and for SIGPIPE, which is ignored.
    const FATAL: [c_int; 14] = [
        SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGABRT, SIGALRM, SIGPROF, SIGSYS, SIGTRAP, SIGUSR1,
        SIGUSR2, SIGVTALRM, SIGXCPU, SIGXFSZ,
    ];

    /// What ends a process on Linux alone: SIGSTKFLT, SIGIO, SIGPWR and the signals without a name.
    /// A C library may keep some of these for itself.
    #[cfg(target_os = "linux")]
    const FATAL_HERE: &[std::ops::RangeInclusive<c_int>] = &[16..=16, 29..=30, 34..=64];
    #[cfg(not(target_os = "linux"))]
    const FATAL_HERE: &[std::ops::RangeInclusive<c_int>] = &[];

    /// Signals of a fault. One that this program makes itself ends it at once whatever is done here;
    /// one that is sent is received like a request to stop.
    const FAULTS: [Signal; 4] = [Signal::SIGSEGV, Signal::SIGILL, Signal::SIGFPE, Signal::SIGBUS];

    /// Starts the threads that answer signals. To be called before any other thread is started.
    ///
    /// The terminal library reports new sizes too, but only once its reader has started. A window
    /// that is resized in the program's first milliseconds would keep a frame of the wrong size.
    ///
    /// The threads stay for the rest of the process: a signal that comes after the terminal was
    /// given back still ends the program with the right status.
    pub(in super::super) fn watch(wakes: Arc<Wakes>, player: Arc<dyn Player>) -> io::Result<()> {
        let program = Program { wakes, player };
        // First, so that the threads which follow block what this one does.
        watch_blocked(program.clone())?;
        watch_handled(program)
    }

    /// What signals act on.
    #[derive(Clone)]
    struct Program {
        wakes: Arc<Wakes>,
        player: Arc<dyn Player>,
    }

    fn watch_handled(program: Program) -> io::Result<()> {
        // Registered before the thread starts, so that no signal is missed between the two.
        let mut signals = Signals::new(FATAL.into_iter().chain([SIGCONT, SIGWINCH]))?;
        for signal in FATAL_HERE.iter().cloned().flatten() {
            let _ = signals.add_signal(signal);
        }
        thread::Builder::new().name("signals".into()).spawn(move || {
            for signal in signals.forever() {
                match signal {
                    SIGCONT => program.wakes.put_first(Wake::Continued),
                    SIGWINCH => program.wakes.put_first(Wake::Resized),
                    fatal => end(fatal, &program),
                }
            }
        })?;
        Ok(())
    }

    /// A handler would take the place of what these signals do, which is needed again: a process
    /// stops by raising one of them. So they are blocked on every thread and waited for.
    fn watch_blocked(program: Program) -> io::Result<()> {
        let signals: SigSet = Stop::ALL.into_iter().chain(FAULTS).collect();
        signals.thread_block()?;
        thread::Builder::new().name("stops".into()).spawn(move || {
            while let Ok(signal) = signals.wait() {
                match Stop::of(signal) {
                    Some(stop) => program.wakes.put_first(Wake::Stop(stop)),
                    None => end(signal as c_int, &program),
                }
            }
        })?;
        Ok(())
    }

    /// Ends what sounds, has the main thread save what should last, gives the terminal back, and ends the process
    /// with the status that a shell expects of that signal. A main thread that is stuck delays this
    /// by [`PATIENCE`] at most.
    fn end(signal: c_int, Program { wakes, player }: &Program) -> ! {
        player.stop();
        let (done, saved) = mpsc::sync_channel(1);
        wakes.put_first(Wake::Ending(done));
        let _ = saved.recv_timeout(PATIENCE);
        // Silent by now, unless the main thread is stuck.
        player.silence();
        // There is nobody left to tell of an error.
        let _ = terminal::give_back();
        process::exit(128 + signal)
    }
}
