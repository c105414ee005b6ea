//! Whose turn it is to write to the terminal, and what changes hands with it.
//!
//! State of the process: there is one terminal, and the panic hook and the threads that answer
//! signals have no other way to learn whether it still has to be given back.

use std::io::{self, Write};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{self, RecvTimeoutError};
use std::sync::{Mutex, PoisonError};
use std::thread;
use std::time::Duration;

use ratatui::crossterm::cursor::{Hide, Show};
use ratatui::crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use ratatui::crossterm::queue;
use ratatui::crossterm::terminal::{
    EndSynchronizedUpdate, EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode,
    enable_raw_mode,
};

use crate::tui::job_control;
use crate::tui::mouse::Mouse;

/// How long the end waits for a terminal that does not read: once for what was written before, and
/// once more after that has been dropped.
const PATIENCE: Duration = Duration::from_millis(300);

/// Ends whatever sequence a frame was cut off in.
const CANCEL: &[u8] = b"\x18";

/// One stretch of time in which the program has the terminal.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Turn(u64);

/// Odd while the program has the terminal, even while the shell has it.
static TURNS: AtomicU64 = AtomicU64::new(0);

/// Held while the terminal changes hands, so that whoever ends the process after another thread has
/// begun to give the terminal back waits until that is done.
static EXCHANGE: Mutex<()> = Mutex::new(());

impl Turn {
    /// Has the terminal been the program's ever since?
    pub(super) fn lasts(self) -> bool {
        TURNS.load(Ordering::SeqCst) == self.0
    }
}

/// Takes the terminal: raw mode from here on. The rest is asked for with the first frame
/// ([`ask_for_screen`]).
pub(super) fn take() -> io::Result<Turn> {
    let _exchange = EXCHANGE.lock().unwrap_or_else(PoisonError::into_inner);
    job_control::on_the_terminal(enable_raw_mode)?;
    Ok(Turn(TURNS.fetch_add(1, Ordering::SeqCst) + 1))
}

/// Gives the terminal back unless that has been done: the first caller does it.
///
/// # Errors
///
/// When the terminal cannot be written, or does not read.
pub(in crate::tui) fn give_back() -> io::Result<()> {
    give_back_after(String::new())
}

/// The same after a last text.
pub(super) fn give_back_after(last: String) -> io::Result<()> {
    let _exchange = EXCHANGE.lock().unwrap_or_else(PoisonError::into_inner);
    if TURNS.load(Ordering::SeqCst).is_multiple_of(2) {
        return Ok(());
    }
    TURNS.fetch_add(1, Ordering::SeqCst);
    // Raw mode first: leaving it writes nothing, so it works where the terminal does not read.
    let cooked = disable_raw_mode();
    cooked.and(write_in_time(last))
}

/// Sets raw mode again where the terminal has lost it. It is left alone where it is still on:
/// switching it off and on again has a moment in which Ctrl-Z stops the process with the terminal
/// still taken.
pub(super) fn set_mode_again() -> io::Result<()> {
    if job_control::is_in_line_mode() {
        // The library sets raw mode only where it believes that it is off.
        disable_raw_mode()?;
        job_control::on_the_terminal(enable_raw_mode)?;
    }
    Ok(())
}

/// Writes the last bytes, on a thread that can be left behind where the terminal does not read.
fn write_in_time(last: String) -> io::Result<()> {
    let (done, written) = mpsc::channel();
    thread::Builder::new().name("leave".into()).spawn(move || done.send(write_end(&last)))?;
    let in_time = written.recv_timeout(PATIENCE).or_else(|_| {
        job_control::drop_unread_output();
        written.recv_timeout(PATIENCE)
    });
    in_time.unwrap_or_else(|error| Err(late(error)))
}

fn late(error: RecvTimeoutError) -> io::Error {
    match error {
        RecvTimeoutError::Timeout => {
            io::Error::new(io::ErrorKind::TimedOut, "the terminal does not read")
        }
        RecvTimeoutError::Disconnected => io::Error::other("the thread that writes it panicked"),
    }
}

fn write_end(last: &str) -> io::Result<()> {
    let mut bytes = last.as_bytes().to_vec();
    bytes.extend(CANCEL);
    // A frame may have been cut off inside its synchronized update, so that is ended too.
    queue!(bytes, EndSynchronizedUpdate)?;
    ask_for_mouse(&mut bytes, Mouse::Free)?;
    queue!(bytes, DisableBracketedPaste, LeaveAlternateScreen, Show)?;
    let mut out = io::stdout().lock();
    out.write_all(&bytes)?;
    out.flush()
}

/// Asks for the screen of a program in place of the shell's lines.
pub(super) fn ask_for_screen(out: &mut impl Write) -> io::Result<()> {
    queue!(out, EnterAlternateScreen, EnableBracketedPaste, Hide)
}

#[cfg(not(windows))]
pub(super) fn ask_for_mouse(out: &mut impl Write, mouse: Mouse) -> io::Result<()> {
    queue!(out, mouse.ask())
}

/// The console of Windows is asked by a system call, and can only report all mouse events or none.
#[cfg(windows)]
pub(super) fn ask_for_mouse(out: &mut impl Write, mouse: Mouse) -> io::Result<()> {
    use ratatui::crossterm::event::{DisableMouseCapture, EnableMouseCapture};
    match mouse {
        Mouse::Taken => queue!(out, EnableMouseCapture),
        Mouse::Free => queue!(out, DisableMouseCapture),
    }
}
