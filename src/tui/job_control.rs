//! Handing the terminal to the shell for a while, as Ctrl-Z does. Only Unix has that.

use std::io;

#[cfg(unix)]
use rustix::termios::{LocalModes, tcgetattr};

/// Whether Ctrl-Z can hand the terminal back to a shell.
pub(super) const JOB_CONTROL: bool = cfg!(unix);

/// Stops this process as Ctrl-Z does; returns when it is continued.
///
/// SIGTSTP and not SIGSTOP: where no shell could continue us (the program was started as the
/// terminal's only process) the system ignores the former, and the latter would stop for good.
#[cfg(unix)]
pub(super) fn stop_process() -> io::Result<()> {
    signal_hook::low_level::raise(signal_hook::consts::SIGTSTP)
}

/// Does the terminal hand over whole lines, as a shell leaves it, and not each key?
///
/// A terminal that does not answer is taken to: setting its mode again will say why.
#[cfg(unix)]
pub(super) fn is_in_line_mode() -> bool {
    let modes = tcgetattr(io::stdin());
    modes.map_or(true, |modes| modes.local_modes.contains(LocalModes::ICANON))
}

#[cfg(not(unix))]
pub(super) fn stop_process() -> io::Result<()> {
    Ok(())
}

#[cfg(not(unix))]
pub(super) fn is_in_line_mode() -> bool {
    false
}
