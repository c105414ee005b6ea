//! The terminal, taken and given back.
//!
//! A [`TerminalGuard`] puts the terminal in raw mode, on the alternate screen, with bracketed paste
//! and without a cursor. It gives all of that back exactly once, whichever comes first: the normal
//! end, an error, a panic anywhere in the process, or a fatal signal. The mouse is the terminal's until
//! an app wants it.
//!
//! The invariant: bytes reach the terminal only while `OWNER` says that it is ours, under its
//! lock. A frame is built in memory and written in one piece, so no half frame can follow the
//! bytes that gave the terminal back, and the panic hook never waits for a lock that the panicking
//! view holds.

use std::cell::RefCell;
use std::io::{self, IsTerminal, Write};
use std::rc::Rc;
use std::sync::{Mutex, MutexGuard, Once, PoisonError, mpsc};
use std::time::Duration;
use std::{fmt, mem, panic, thread};

use ratatui::backend::CrosstermBackend;
use ratatui::crossterm::cursor::{Hide, Show};
use ratatui::crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use ratatui::crossterm::terminal::{
    BeginSynchronizedUpdate, EndSynchronizedUpdate, EnterAlternateScreen, LeaveAlternateScreen,
    disable_raw_mode, enable_raw_mode,
};
use ratatui::crossterm::{execute, queue};
use ratatui::layout::Size;
use ratatui::{Frame, Terminal};

use super::clipboard::Clip;
use super::job_control;
use super::mouse::Mouse;

/// The terminal while the program's screens are on it.
///
/// There is one terminal in a process and so at most one guard at a time.
pub struct TerminalGuard {
    terminal: Terminal<CrosstermBackend<FrameBytes>>,
    frame: FrameBytes,
    /// What the terminal shows is not what was drawn last.
    stale: bool,
    mouse: Mouse,
}

impl TerminalGuard {
    /// Takes the terminal.
    ///
    /// # Errors
    ///
    /// [`TerminalError::NotATerminal`], with nothing changed, when standard input or output leads
    /// elsewhere; [`TerminalError::Io`] when the terminal refuses, with what was changed undone.
    pub fn enter() -> Result<Self, TerminalError> {
        require_terminal(Stream::Input, &io::stdin())?;
        require_terminal(Stream::Output, &io::stdout())?;
        give_back_on_panic();
        take()?;
        let frame = FrameBytes::default();
        match Terminal::new(CrosstermBackend::new(frame.clone())) {
            Ok(terminal) => Ok(TerminalGuard { terminal, frame, stale: false, mouse: Mouse::Free }),
            Err(error) => {
                give_back()?;
                Err(error.into())
            }
        }
    }

    /// Draws one frame inside a synchronized update, so that a slow link never shows half of it.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be measured or written.
    pub fn draw(&mut self, view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        queue!(self.frame, BeginSynchronizedUpdate)?;
        if mem::take(&mut self.stale) {
            self.clear()?;
        }
        self.terminal.draw(view)?;
        queue!(self.frame, EndSynchronizedUpdate)?;
        self.frame.present()
    }

    /// Asks the terminal to copy a text. It gives no answer.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be written.
    pub fn copy(&mut self, clip: &Clip) -> io::Result<()> {
        self.frame.write_all(clip.sequence().as_bytes())?;
        self.frame.present()
    }

    /// Takes the mouse, or frees it.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be written.
    pub fn use_mouse(&mut self, mouse: Mouse) -> io::Result<()> {
        if self.mouse == mouse {
            return Ok(());
        }
        self.mouse = mouse;
        ask_mouse(&mut self.frame, mouse)?;
        self.frame.present()
    }

    /// The size of the window now.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be measured.
    pub fn size(&self) -> io::Result<Size> {
        self.terminal.size()
    }

    /// Gives the terminal to the shell as Ctrl-Z does, and takes it again when the shell lets the
    /// program continue. Does nothing where there is no job control.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be given back or taken again.
    pub fn suspend(&mut self) -> io::Result<()> {
        if !job_control::JOB_CONTROL {
            return Ok(());
        }
        give_back()?;
        job_control::stop_process()?;
        take()?;
        // It was freed with all the rest.
        let mouse = mem::take(&mut self.mouse);
        self.use_mouse(mouse)?;
        self.stale = true;
        Ok(())
    }

    /// Recovers from a stop that came from outside, after which a shell may have changed the modes
    /// of the terminal and written over the screen. Harmless after [`suspend`](Self::suspend).
    ///
    /// # Errors
    ///
    /// When the terminal refuses.
    pub fn reclaim(&mut self) -> io::Result<()> {
        // Left alone where it is raw: off and on again has a moment in which Ctrl-Z stops the
        // program behind its back, with the terminal still taken.
        if job_control::is_in_line_mode() {
            // Raw mode is set only by a program that believes it is off.
            disable_raw_mode()?;
            enable_raw_mode()?;
        }
        self.stale = true;
        Ok(())
    }

    /// Gives the terminal back; dropping does the same and cannot tell of an error.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be written.
    pub fn leave(self) -> io::Result<()> {
        give_back()
    }

    /// Clears the screen, so that every cell is written again.
    ///
    /// Not by `Terminal::clear`: that asks the terminal where its cursor is, and the answer would
    /// go to the input thread. A resize, even to the same size, clears and asks nothing.
    fn clear(&mut self) -> io::Result<()> {
        let area = self.terminal.size()?.into();
        self.terminal.resize(area)
    }
}

impl Drop for TerminalGuard {
    fn drop(&mut self) {
        let _ = give_back();
    }
}

/// Why the terminal could not be taken.
#[derive(Debug)]
#[non_exhaustive]
pub enum TerminalError {
    /// This stream leads to a file, a pipe or nowhere.
    NotATerminal(Stream),
    /// The terminal refused.
    Io(io::Error),
}

/// One of the two streams a screen needs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stream {
    /// Where keys come from.
    Input,
    /// Where frames go.
    Output,
}

impl fmt::Display for TerminalError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TerminalError::NotATerminal(Stream::Input) => {
                f.write_str("standard input is not a terminal")
            }
            TerminalError::NotATerminal(Stream::Output) => {
                f.write_str("standard output is not a terminal")
            }
            TerminalError::Io(error) => write!(f, "the terminal cannot be used: {error}"),
        }
    }
}

impl std::error::Error for TerminalError {}

impl From<io::Error> for TerminalError {
    fn from(error: io::Error) -> Self {
        TerminalError::Io(error)
    }
}

/// Whose the terminal is at this moment.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Owner {
    Shell,
    Screens,
}

/// A global, because there is one terminal and the panic hook and the signal thread have no other
/// way to learn whether it still has to be given back.
static OWNER: Mutex<Owner> = Mutex::new(Owner::Shell);

fn owner() -> MutexGuard<'static, Owner> {
    // A panic elsewhere is the very moment when this must still work.
    OWNER.lock().unwrap_or_else(PoisonError::into_inner)
}

fn require_terminal(stream: Stream, handle: &impl IsTerminal) -> Result<(), TerminalError> {
    if handle.is_terminal() { Ok(()) } else { Err(TerminalError::NotATerminal(stream)) }
}

fn take() -> io::Result<()> {
    let taken = {
        let mut owner = owner();
        // Said first: if only half of it succeeds, that half has to be given back.
        *owner = Owner::Screens;
        enable_raw_mode()
            .and_then(|()| execute!(io::stdout(), EnterAlternateScreen, EnableBracketedPaste, Hide))
    };
    if taken.is_err() {
        give_back()?;
    }
    taken
}

/// Gives the terminal back unless that has been done. Whoever comes first does it.
fn give_back() -> io::Result<()> {
    let mut owner = owner();
    if *owner == Owner::Shell {
        return Ok(());
    }
    *owner = Owner::Shell;
    // Raw mode first: it needs no room in the terminal's queue and so always succeeds at once.
    let cooked = disable_raw_mode();
    let freed = ask_mouse(&mut io::stdout(), Mouse::Free);
    // A frame may have been cut off in the middle of its synchronized update.
    let written = execute!(
        io::stdout(),
        EndSynchronizedUpdate,
        DisableBracketedPaste,
        LeaveAlternateScreen,
        Show
    );
    cooked.and(freed).and(written)
}

#[cfg(not(windows))]
fn ask_mouse(out: &mut impl Write, mouse: Mouse) -> io::Result<()> {
    queue!(out, mouse.ask())
}

/// The console of Windows is asked by a call and knows no wish but for everything.
#[cfg(windows)]
fn ask_mouse(out: &mut impl Write, mouse: Mouse) -> io::Result<()> {
    use ratatui::crossterm::event::{DisableMouseCapture, EnableMouseCapture};
    match mouse {
        Mouse::Taken => queue!(out, EnableMouseCapture),
        Mouse::Free => queue!(out, DisableMouseCapture),
    }
}

/// Gives the terminal back, but waits no longer than this for a terminal that does not read.
#[cfg_attr(not(unix), expect(dead_code, reason = "only Unix signals end a process from here"))]
pub(super) fn give_back_within(patience: Duration) {
    let (done, wait) = mpsc::channel();
    thread::spawn(move || {
        let _ = give_back();
        let _ = done.send(());
    });
    let _ = wait.recv_timeout(patience);
}

/// Makes a panic, on any thread, give the terminal back before its report is printed, so that the
/// report can be read. Unwinding goes on as usual.
fn give_back_on_panic() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let report = panic::take_hook();
        panic::set_hook(Box::new(move |panic| {
            let _ = give_back();
            report(panic);
        }));
    });
}

/// The bytes of the frame being drawn, shared by the guard and the backend that writes them.
///
/// Flushing does nothing, since the backend flushes several times a frame; `present` does.
#[derive(Clone, Default)]
struct FrameBytes(Rc<RefCell<Vec<u8>>>);

impl FrameBytes {
    /// Writes the frame in one piece, or drops it if the terminal has been given back meanwhile.
    fn present(&self) -> io::Result<()> {
        let bytes = self.0.take();
        let owner = owner();
        if *owner == Owner::Shell {
            return Ok(());
        }
        let mut out = io::stdout().lock();
        out.write_all(&bytes)?;
        out.flush()
    }
}

impl Write for FrameBytes {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}
