//! The terminal, taken and given back.
//!
//! A `TerminalGuard` puts the terminal in raw mode, on the alternate screen, with bracketed paste
//! and without a cursor. All of that is undone exactly once, at whatever comes first: the normal
//! end, an error, a panic on any thread, or a fatal signal. Mouse events are asked for only when an
//! app wants them.
//!
//! A frame is built in memory and written by a thread of its own (`writer`), so that the main thread
//! hears keys and signals while a terminal does not read. Whose turn it is (`turn`) is asked before
//! each piece is written. So no half frame can follow the bytes that gave the terminal back.

mod turn;
mod writer;

use std::cell::RefCell;
use std::io::{self, IsTerminal, Write};
use std::rc::Rc;
use std::sync::{Arc, Once};
use std::{fmt, mem, panic};

use ratatui::backend::{Backend, CrosstermBackend};
use ratatui::crossterm::queue;
use ratatui::crossterm::terminal::{BeginSynchronizedUpdate, EndSynchronizedUpdate};
use ratatui::layout::{Position, Rect, Size};
use ratatui::{Frame, Terminal, TerminalOptions, Viewport};

pub(super) use turn::give_back;

use super::clipboard::Clip;
use super::job_control::{self, Stop};
use super::mouse::Mouse;
use super::wakes::Wakes;
use crate::words::in_plain_words;
use turn::Turn;
use writer::Writer;

/// The largest window that is drawn whole, in cells; of a larger one the upper left part. More than
/// any screen shows, and no size that a terminal may claim takes much memory.
const LARGEST: Size = Size::new(1000, 500);

/// The terminal while the program uses it; dropping this gives it back.
///
/// A process has one terminal, and so at most one guard at a time.
pub(super) struct TerminalGuard {
    terminal: Terminal<CrosstermBackend<FrameBytes>>,
    frame: FrameBytes,
    writer: Writer,
    turn: Turn,
    /// The size of what is drawn.
    size: Size,
    /// Does the terminal perhaps show something other than the frame that was drawn last?
    stale: bool,
    mouse: Mouse,
    /// What is to be put on the clipboard with the next frame.
    clip: Option<Clip>,
}

impl TerminalGuard {
    /// Takes the terminal. `wakes` is told whenever it can be given another frame.
    ///
    /// # Errors
    ///
    /// [`TerminalError::NotATerminal`] when standard input or output is not a terminal; nothing has
    /// been changed then. [`TerminalError::Io`] when the terminal refuses; what was changed has
    /// been undone.
    pub(super) fn enter(wakes: Arc<Wakes>) -> Result<Self, TerminalError> {
        require_terminal(Stream::Input, &io::stdin())?;
        require_terminal(Stream::Output, &io::stdout())?;
        give_back_on_panic();
        let writer = Writer::start(wakes)?;
        let turn = turn::take()?;
        TerminalGuard::begin(writer, turn).or_else(|error| {
            give_back()?;
            Err(error.into())
        })
    }

    fn begin(writer: Writer, turn: Turn) -> io::Result<TerminalGuard> {
        let mut frame = FrameBytes::default();
        turn::ask_for_screen(&mut frame)?;
        let backend = CrosstermBackend::new(frame.clone());
        let viewport = Viewport::Fixed(Rect::ZERO);
        let terminal = Terminal::with_options(backend, TerminalOptions { viewport })?;
        let (size, mouse, clip) = (Size::ZERO, Mouse::Free, None);
        Ok(TerminalGuard { terminal, frame, writer, turn, size, stale: true, mouse, clip })
    }

    /// Can the terminal be given a frame, or is it still reading the one before?
    pub(super) fn is_ready(&self) -> bool {
        self.writer.is_idle()
    }

    /// Notes that the terminal has read its frame.
    pub(super) fn has_read(&mut self) {
        self.writer.rest();
    }

    /// Draws one frame inside a synchronized update, so that a slow connection never shows half a
    /// frame.
    ///
    /// # Errors
    ///
    /// When the frame cannot be built or handed over.
    pub(super) fn draw(&mut self, view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        queue!(self.frame, BeginSynchronizedUpdate)?;
        if mem::take(&mut self.stale) {
            self.clear()?;
        }
        self.terminal.draw(view)?;
        queue!(self.frame, EndSynchronizedUpdate)?;
        if let Some(clip) = self.clip.take() {
            self.frame.write_all(clip.sequence().as_bytes())?;
        }
        self.writer.write(self.turn, self.frame.take())
    }

    /// Has the next frame ask the terminal to put a text on the clipboard, in place of one that has
    /// not been asked for yet. Terminals do not answer this.
    pub(super) fn copy(&mut self, clip: Clip) {
        self.clip = Some(clip);
    }

    /// Has the next frame ask the terminal for mouse events, or for no more of them.
    ///
    /// # Errors
    ///
    /// When the terminal refuses.
    pub(super) fn use_mouse(&mut self, mouse: Mouse) -> io::Result<()> {
        if self.mouse == mouse {
            return Ok(());
        }
        self.mouse = mouse;
        turn::ask_for_mouse(&mut self.frame, mouse)
    }

    /// Measures the window for the next frames; the size of what they show.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be measured.
    pub(super) fn measure(&mut self) -> io::Result<Size> {
        let window = self.terminal.size()?;
        let width = window.width.min(LARGEST.width);
        let size = Size::new(width, window.height.min(LARGEST.height));
        self.stale |= size != self.size;
        self.size = size;
        Ok(size)
    }

    /// Gives the terminal back and stops the process, as Ctrl-Z does; takes the terminal again when
    /// the shell continues the process. Does nothing where there is no job control.
    ///
    /// # Errors
    ///
    /// When the process cannot be stopped, or the terminal not taken again.
    pub(super) fn suspend(&mut self, stop: Stop) -> io::Result<()> {
        if !job_control::JOB_CONTROL {
            return Ok(());
        }
        // A terminal that does not read now may do so when it is taken again.
        let _ = self.hand_over();
        job_control::stop_process(stop)?;
        self.turn = turn::take()?;
        // What was built for the screen as it was must not be written.
        drop(self.frame.take());
        turn::ask_for_screen(&mut self.frame)?;
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
    pub(super) fn reclaim(&mut self) -> io::Result<()> {
        turn::set_mode_again()?;
        self.stale = true;
        Ok(())
    }

    /// Gives the terminal back. Dropping the guard does the same, but cannot report an error.
    ///
    /// # Errors
    ///
    /// When the terminal cannot be written, or does not read.
    pub(super) fn leave(mut self) -> io::Result<()> {
        self.hand_over()
    }

    /// Gives the terminal back, after what is still to be copied.
    fn hand_over(&mut self) -> io::Result<()> {
        let last = self.clip.take().map(|clip| clip.sequence()).unwrap_or_default();
        turn::give_back_after(last)
    }

    /// Clears the screen, so that every cell is written again.
    ///
    /// `Terminal::clear` cannot be used: it asks the terminal where the cursor is, and the input
    /// thread would read the answer. A resize, even to the same size, asks nothing.
    fn clear(&mut self) -> io::Result<()> {
        self.terminal.backend_mut().clear()?;
        self.terminal.resize(Rect::from((Position::ORIGIN, self.size)))
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

fn require_terminal(stream: Stream, handle: &impl IsTerminal) -> Result<(), TerminalError> {
    if handle.is_terminal() { Ok(()) } else { Err(TerminalError::NotATerminal(stream)) }
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
/// `flush` does nothing, since the backend flushes several times a frame.
#[derive(Clone, Default)]
struct FrameBytes(Rc<RefCell<Vec<u8>>>);

impl FrameBytes {
    fn take(&self) -> Vec<u8> {
        self.0.take()
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
