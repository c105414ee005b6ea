//! Handing the terminal to the shell for a while, as Ctrl-Z does. Only Unix has that.

use std::io;

#[cfg(unix)]
use rustix::termios::{LocalModes, tcgetattr};

/// Whether Ctrl-Z can hand the terminal back to a shell.
pub(super) const JOB_CONTROL: bool = cfg!(unix);

/// Stops this process as Ctrl-Z does; returns when it is continued.
///
/// It raises SIGTSTP and not SIGSTOP. Where no shell could continue the process, because it was
/// started as the terminal's only one, the system ignores SIGTSTP. SIGSTOP would stop it for good.
#[cfg(unix)]
pub(super) fn stop_process() -> io::Result<()> {
    signal_hook::low_level::raise(signal_hook::consts::SIGTSTP)
}

/// Does the terminal hand over whole lines, as a shell leaves it, instead of single keys?
///
/// Also true where the terminal does not answer: setting its mode again will say why.
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
