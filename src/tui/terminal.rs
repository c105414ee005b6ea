//! The terminal, taken and given back.
//!
//! A [`TerminalGuard`] puts the terminal in raw mode, on the alternate screen, with bracketed paste
//! and without a cursor. All of that is undone exactly once, at whatever comes first: the normal
//! end, an error, a panic on any thread, or a fatal signal. Mouse events are asked for only when an
//! app wants them.
//!
//! The invariant: bytes are written to the terminal only under the lock of `OWNER`, and only while
//! it names the program. A frame is built in memory and written in one piece. So no half frame can
//! follow the bytes that gave the terminal back, and the panic hook never waits for a lock that the
//! panicking thread holds while it draws.

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
use crate::words::in_plain_words;

/// The terminal while the program uses it; dropping this gives it back.
///
/// A process has one terminal, and so at most one guard at a time.
pub struct TerminalGuard {
    terminal: Terminal<CrosstermBackend<FrameBytes>>,
    frame: FrameBytes,
    /// Does the terminal perhaps show something other than the frame that was drawn last?
    stale: bool,
    mouse: Mouse,
}

impl TerminalGuard {
    /// Takes the terminal.
    ///
    /// # Errors
    ///
    /// [`TerminalError::NotATerminal`] when standard input or output is not a terminal; nothing has
    /// been changed then. [`TerminalError::Io`] when the terminal refuses; what was changed has
    /// been undone.
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

    /// Draws one frame inside a synchronized update, so that a slow connection never shows half a
    /// frame.
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

    /// Asks the terminal to put a text on the clipboard. Terminals do not answer this.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be written.
    pub fn copy(&mut self, clip: &Clip) -> io::Result<()> {
        self.frame.write_all(clip.sequence().as_bytes())?;
        self.frame.present()
    }

    /// Asks the terminal for mouse events, or for no more of them.
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

    /// Gives the terminal back and stops the process, as Ctrl-Z does; takes the terminal again when
    /// the shell continues the process. Does nothing where there is no job control.
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
        // Giving the terminal back has freed the mouse too.
        let mouse = mem::take(&mut self.mouse);
        self.use_mouse(mouse)?;
        self.stale = true;
        Ok(())
    }

    /// Takes the terminal again after another process stopped this one: a shell may meanwhile have
    /// changed the terminal's modes and written over the screen. Harmless after
    /// [`suspend`](Self::suspend).
    ///
    /// # Errors
    ///
    /// When the terminal refuses.
    pub fn reclaim(&mut self) -> io::Result<()> {
        // Raw mode is left alone where it is still on. Switching it off and on again has a moment
        // in which Ctrl-Z stops the process without `suspend`, with the terminal still taken.
        if job_control::is_in_line_mode() {
            // The library sets raw mode only where it believes that it is off.
            disable_raw_mode()?;
            enable_raw_mode()?;
        }
        self.stale = true;
        Ok(())
    }

    /// Gives the terminal back. Dropping the guard does the same, but cannot report an error.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be written.
    pub fn leave(self) -> io::Result<()> {
        give_back()
    }

    /// Clears the screen, so that every cell is written again.
    ///
    /// `Terminal::clear` cannot be used: it asks the terminal where the cursor is, and the input
    /// thread would read the answer. A resize, even to the same size, clears and asks nothing.
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
    /// This stream is a file, a pipe or closed.
    NotATerminal(Stream),
    /// The terminal refused.
    Io(io::Error),
}

/// One of the two streams that a screen needs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stream {
    /// Standard input, where keys come from.
    Input,
    /// Standard output, where frames go.
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
            TerminalError::Io(error) => {
                write!(f, "the terminal cannot be used: {}", in_plain_words(error))
            }
        }
    }
}

impl std::error::Error for TerminalError {}

impl From<io::Error> for TerminalError {
    fn from(error: io::Error) -> Self {
        TerminalError::Io(error)
    }
}

/// Who may write to the terminal at this moment.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Owner {
    Shell,
    Program,
}

/// Who owns the terminal. A global: there is one terminal, and the panic hook and the signal thread
/// have no other way to learn whether it still has to be given back.
static OWNER: Mutex<Owner> = Mutex::new(Owner::Shell);

fn owner() -> MutexGuard<'static, Owner> {
    // After a panic elsewhere the terminal must still be given back.
    OWNER.lock().unwrap_or_else(PoisonError::into_inner)
}

fn require_terminal(stream: Stream, handle: &impl IsTerminal) -> Result<(), TerminalError> {
    if handle.is_terminal() { Ok(()) } else { Err(TerminalError::NotATerminal(stream)) }
}

fn take() -> io::Result<()> {
    let taken = {
        let mut owner = owner();
        // Set first: if only half of what follows succeeds, that half has to be undone.
        *owner = Owner::Program;
        enable_raw_mode()
            .and_then(|()| execute!(io::stdout(), EnterAlternateScreen, EnableBracketedPaste, Hide))
    };
    if taken.is_err() {
        give_back()?;
    }
    taken
}

/// Gives the terminal back unless that has been done: the first caller does it.
fn give_back() -> io::Result<()> {
    let mut owner = owner();
    if *owner == Owner::Shell {
        return Ok(());
    }
    *owner = Owner::Shell;
    // Raw mode first: leaving it writes nothing, so it works where the terminal does not read.
    let cooked = disable_raw_mode();
    let freed = ask_mouse(&mut io::stdout(), Mouse::Free);
    // A frame may have been cut off inside its synchronized update, so that is ended too.
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

/// The console of Windows is asked by a system call, and can only report all mouse events or none.
#[cfg(windows)]
fn ask_mouse(out: &mut impl Write, mouse: Mouse) -> io::Result<()> {
    use ratatui::crossterm::event::{DisableMouseCapture, EnableMouseCapture};
    match mouse {
        Mouse::Taken => queue!(out, EnableMouseCapture),
        Mouse::Free => queue!(out, DisableMouseCapture),
    }
}

/// Gives the terminal back, but waits no longer than `patience` for a terminal that does not read.
#[cfg_attr(not(unix), expect(dead_code, reason = "only Unix signals end a process from here"))]
pub(super) fn give_back_within(patience: Duration) {
    let (done, wait) = mpsc::channel();
    thread::spawn(move || {
        let _ = give_back();
        let _ = done.send(());
    });
    let _ = wait.recv_timeout(patience);
}

/// Makes a panic on any thread give the terminal back before its message is printed, so that the
/// message can be read. Unwinding goes on as usual.
fn give_back_on_panic() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let print_message = panic::take_hook();
        panic::set_hook(Box::new(move |panic| {
            let _ = give_back();
            print_message(panic);
        }));
    });
}

/// The bytes of the frame being drawn, shared by the guard and the backend that writes them.
///
/// `flush` does nothing, since the backend flushes several times a frame; `present` writes.
#[derive(Clone, Default)]
struct FrameBytes(Rc<RefCell<Vec<u8>>>);

impl FrameBytes {
    /// Writes the frame in one piece. Drops it where the terminal has meanwhile been given back.
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
