//! Handing the terminal to the shell for a while, as Ctrl-Z does. Only Unix has that.
//!
//! The signals that stop a process are blocked while the program runs, so that the terminal can be
//! given back first; [`stop_process`] lets one of them through.

use std::io;

#[cfg(unix)]
pub(super) use unix::{Stop, drop_unread_output, is_in_line_mode, on_the_terminal, stop_process};

/// Whether Ctrl-Z can hand the terminal back to a shell.
pub(super) const JOB_CONTROL: bool = cfg!(unix);

#[cfg(unix)]
mod unix {
    use nix::sys::signal::{SigSet, Signal, raise};
    use rustix::process::getpgrp;
    use rustix::termios::{
        Action, LocalModes, QueueSelector, tcflow, tcflush, tcgetattr, tcgetpgrp,
    };

    use super::io;

    /// A signal that asks a process to stop.
    #[derive(Clone, Copy, PartialEq, Eq, Debug)]
    pub(in super::super) struct Stop(Signal);

    impl Stop {
        /// All of them but SIGSTOP, which cannot be answered.
        pub(in super::super) const ALL: [Signal; 3] =
            [Signal::SIGTSTP, Signal::SIGTTIN, Signal::SIGTTOU];

        /// What Ctrl-Z sends.
        pub(in super::super) const CTRL_Z: Stop = Stop(Signal::SIGTSTP);

        /// The signal as a request to stop, if it is one.
        pub(in super::super) fn of(signal: Signal) -> Option<Stop> {
            Stop::ALL.contains(&signal).then_some(Stop(signal))
        }
    }

    /// Stops this process as the signal does; returns when it is continued.
    ///
    /// It raises the signal itself and not SIGSTOP. Where no shell could continue the process,
    /// because it was started as the terminal's only one, the system ignores the signal. SIGSTOP
    /// would stop it for good.
    pub(in super::super) fn stop_process(Stop(signal): Stop) -> io::Result<()> {
        Ok(let_through(signal, || raise(signal))?)
    }

    /// How often a program in the background asks to be stopped before it changes the terminal's mode
    /// all the same. Where no shell could continue it, the system ignores each of them and then
    /// refuses the change.
    const MOST_STOPS: usize = 100;

    /// Changes the terminal's mode. A program in the background is stopped by that until it comes to
    /// the front, as any other is.
    ///
    /// The stop is raised here, on this thread. The one that the terminal sends is for the whole
    /// process: the thread that waits for stops may take it just before it stops anything, and would
    /// stop the program again once that is in front.
    pub(in super::super) fn on_the_terminal<T>(change: impl FnOnce() -> T) -> T {
        for _ in 0..MOST_STOPS {
            if is_in_front() || stop_process(Stop(Signal::SIGTTOU)).is_err() {
                break;
            }
        }
        let_through(Signal::SIGTTOU, change)
    }

    /// May this process change the terminal's mode without being stopped?
    ///
    /// Also true where the terminal does not answer: setting its mode will say why.
    fn is_in_front() -> bool {
        tcgetpgrp(io::stdin()).map_or(true, |front| front == getpgrp())
    }

    /// Does something while the signal has its usual effect on this thread.
    fn let_through<T>(signal: Signal, act: impl FnOnce() -> T) -> T {
        let signals = SigSet::from(signal);
        let was_blocked = SigSet::thread_get_mask().is_ok_and(|mask| mask.contains(signal));
        let _ = signals.thread_unblock();
        let done = act();
        if was_blocked {
            let _ = signals.thread_block();
        }
        done
    }

    /// Does the terminal hand over whole lines, as a shell leaves it, instead of single keys?
    ///
    /// Also true where the terminal does not answer: setting its mode again will say why.
    pub(in super::super) fn is_in_line_mode() -> bool {
        let modes = tcgetattr(io::stdin());
        modes.map_or(true, |modes| modes.local_modes.contains(LocalModes::ICANON))
    }

    /// Drops what was written and the terminal has not read, so that what is written next has room.
    pub(in super::super) fn drop_unread_output() {
        let _ = tcflush(io::stdout(), QueueSelector::OFlush);
        // Linux does not tell a thread that waits for that room; being let go on does.
        let _ = tcflow(io::stdout(), Action::OOff);
        let _ = tcflow(io::stdout(), Action::OOn);
    }
}

/// There are no such signals.
#[cfg(not(unix))]
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Stop;

#[cfg(not(unix))]
impl Stop {
    pub(super) const CTRL_Z: Stop = Stop;
}

#[cfg(not(unix))]
pub(super) fn stop_process(_stop: Stop) -> io::Result<()> {
    Ok(())
}

#[cfg(not(unix))]
pub(super) fn on_the_terminal<T>(change: impl FnOnce() -> T) -> T {
    change()
}

#[cfg(not(unix))]
pub(super) fn is_in_line_mode() -> bool {
    false
}

#[cfg(not(unix))]
pub(super) fn drop_unread_output() {}
