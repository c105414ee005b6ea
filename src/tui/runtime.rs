//! The loop: wait, update, draw.
//!
//! One queue brings every reason to wake up, and waiting for it is the only waiting: an idle
//! program uses no CPU. After a wake-up everything that has arrived is handled before one frame is
//! drawn, and none is drawn while the terminal reads the one before. So a fast hand or a slow
//! terminal never makes a queue of frames.

use std::ops::ControlFlow;
use std::sync::Arc;
use std::{error, fmt, io};

use ratatui::Frame;
use ratatui::layout::Size;

use super::clipboard::Clip;
use super::event::{Event, Wake};
use super::faults::Faults;
use super::job_control::Stop;
use super::mouse::Mouse;
use super::terminal::{TerminalError, TerminalGuard};
use super::wakes::{BATCH, Wakes};
use super::{input, signals};
use crate::words::in_plain_words;

/// A program for the terminal: a state that events change and frames show.
pub trait App {
    /// Changes the state, and says what is to be done outside of it, in that order.
    fn update(&mut self, event: Event) -> Vec<Effect>;

    /// Whose the mouse is now; the terminal's, unless the app wants it.
    fn mouse(&self) -> Mouse {
        Mouse::Free
    }

    /// Draws the state on a frame of any size, down to nothing.
    fn view(&self, frame: &mut Frame<'_>);
}

/// What an [`App`] asks the runtime to do, since it does nothing to the world itself.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Effect {
    /// Ends the program; later effects and events are not carried out.
    Quit,
    /// Stops the program as Ctrl-Z does, until the shell continues it.
    Suspend,
    /// Asks the terminal to put a text on the player's clipboard.
    Copy(Clip),
}

/// Runs an app on the terminal until it quits. To be called once in a process.
///
/// `keep` is called with the app before the program ends, to save what should outlast it.
///
/// A fatal signal does not return from here. The thread that answers it waits a second at most until `keep`
/// was called, gives the terminal back and ends the process with status 128 + the signal's number.
///
/// # Errors
///
/// When there is no terminal, or it fails while the app runs; the terminal has been given back.
pub fn run<A: App>(app: &mut A, keep: impl FnMut(&A)) -> Result<(), RunError> {
    let wakes = Arc::new(Wakes::default());
    // Before the terminal is taken, so that no signal finds it taken and unwatched.
    signals::watch(Arc::clone(&wakes)).map_err(TerminalError::Io)?;
    let terminal = TerminalGuard::enter(Arc::clone(&wakes))?;
    input::start(Arc::clone(&wakes)).map_err(TerminalError::Io)?;
    let faults = Faults::from_environment();
    let (size, changed) = (Size::ZERO, true);
    let mut runtime = Runtime { app, keep, terminal, size, changed, wakes, faults };
    let served = runtime.serve();
    (runtime.keep)(runtime.app);
    served?;
    Ok(runtime.terminal.leave().map_err(TerminalError::Io)?)
}

struct Runtime<'a, A, K> {
    app: &'a mut A,
    keep: K,
    terminal: TerminalGuard,
    /// The size that the app was told last.
    size: Size,
    /// Is there something to draw?
    changed: bool,
    wakes: Arc<Wakes>,
    faults: Faults,
}

impl<A: App, K: FnMut(&A)> Runtime<'_, A, K> {
    fn serve(&mut self) -> Result<(), RunError> {
        // The first size is told like any other, so that an app need not guess it.
        if self.tell_size()?.is_break() {
            return Ok(());
        }
        loop {
            if self.changed && self.terminal.is_ready() {
                self.draw().map_err(TerminalError::Io)?;
            }
            if self.handle_what_has_come()?.is_break() {
                return Ok(());
            }
        }
    }

    fn draw(&mut self) -> io::Result<()> {
        self.changed = false;
        self.terminal.use_mouse(self.app.mouse())?;
        self.terminal.draw(|frame| self.app.view(frame))
    }

    /// Waits for one wake-up and handles it with those that have arrived by then.
    fn handle_what_has_come(&mut self) -> Result<ControlFlow<()>, RunError> {
        let first = self.wakes.wait();
        let wakes = Arc::clone(&self.wakes);
        let arrived = std::iter::from_fn(|| wakes.next());
        for wake in std::iter::once(first).chain(arrived).take(BATCH) {
            if self.handle(wake)?.is_break() {
                return Ok(ControlFlow::Break(()));
            }
        }
        Ok(ControlFlow::Continue(()))
    }

    fn handle(&mut self, wake: Wake) -> Result<ControlFlow<()>, RunError> {
        match wake {
            Wake::Event(event) => return self.update(event),
            Wake::Stop(stop) => self.suspend(stop)?,
            Wake::Continued => {
                self.terminal.reclaim().map_err(TerminalError::Io)?;
                self.changed = true;
                return self.tell_size();
            }
            Wake::Resized => return self.tell_size(),
            Wake::Written(written) => {
                written.map_err(TerminalError::Io)?;
                self.terminal.has_read();
            }
            Wake::Ending(kept) => {
                (self.keep)(self.app);
                // Whoever ends the program may have stopped waiting.
                let _ = kept.send(());
            }
            Wake::InputFailed(error) => return Err(RunError::Input(error)),
        }
        Ok(ControlFlow::Continue(()))
    }

    fn suspend(&mut self, stop: Stop) -> Result<(), RunError> {
        self.changed = true;
        Ok(self.terminal.suspend(stop).map_err(TerminalError::Io)?)
    }

    /// Tells the app of a new size once, however many events announced it.
    fn tell_size(&mut self) -> Result<ControlFlow<()>, RunError> {
        let size = self.terminal.measure().map_err(TerminalError::Io)?;
        if size == self.size {
            return Ok(ControlFlow::Continue(()));
        }
        self.size = size;
        self.update(Event::Resize { columns: size.width, rows: size.height })
    }

    fn update(&mut self, event: Event) -> Result<ControlFlow<()>, RunError> {
        self.faults.trigger(&event);
        self.changed = true;
        for effect in self.app.update(event) {
            match effect {
                Effect::Quit => return Ok(ControlFlow::Break(())),
                Effect::Copy(clip) => self.terminal.copy(clip),
                Effect::Suspend => self.suspend(Stop::CTRL_Z)?,
            }
        }
        Ok(ControlFlow::Continue(()))
    }
}

/// Why the app could not run, or could not go on.
#[derive(Debug)]
#[non_exhaustive]
pub enum RunError {
    /// There is no terminal, or it refuses.
    Terminal(TerminalError),
    /// No more keys can be read.
    Input(io::Error),
}

impl fmt::Display for RunError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RunError::Terminal(error) => error.fmt(f),
            RunError::Input(error) => {
                write!(f, "the keyboard cannot be read: {}", in_plain_words(error))
            }
        }
    }
}

impl error::Error for RunError {}

impl From<TerminalError> for RunError {
    fn from(error: TerminalError) -> Self {
        RunError::Terminal(error)
    }
}
