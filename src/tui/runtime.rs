//! The loop: wait, update, draw.
//!
//! One channel brings every reason to wake up, and waiting for it is the only waiting: an idle
//! program uses no CPU. After a wake-up everything that has arrived is handled before one frame is
//! drawn, so that a fast hand or a slow terminal never makes a queue of frames.

use std::ops::ControlFlow;
use std::sync::mpsc::{self, Receiver};
use std::{error, fmt, io};

use ratatui::Frame;
use ratatui::layout::Size;

use super::clipboard::Clip;
use super::event::{Event, Wake};
use super::faults::Faults;
use super::mouse::Mouse;
use super::terminal::{TerminalError, TerminalGuard};
use super::{input, signals};
use crate::words::in_plain_words;

/// How many wake-ups the channel holds. When it is full, further keys wait in the terminal. It is
/// also the most that is handled before a frame is drawn.
const QUEUE: usize = 1024;

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
/// A fatal signal does not return from here. The signal thread waits a second at most until `keep`
/// was called, gives the terminal back and ends the process with status 128 + the signal's number.
///
/// # Errors
///
/// When there is no terminal, or it fails while the app runs; the terminal has been given back.
pub fn run<A: App>(app: &mut A, keep: impl FnMut(&A)) -> Result<(), RunError> {
    let (wake, wakes) = mpsc::sync_channel(QUEUE);
    // Before the terminal is taken, so that no signal finds it taken and unwatched.
    signals::watch(wake.clone()).map_err(TerminalError::Io)?;
    let terminal = TerminalGuard::enter()?;
    input::start(wake).map_err(TerminalError::Io)?;
    let faults = Faults::from_environment();
    let mut runtime = Runtime { app, keep, size: Size::ZERO, terminal, wakes, faults };
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
    wakes: Receiver<Wake>,
    faults: Faults,
}

impl<A: App, K: FnMut(&A)> Runtime<'_, A, K> {
    fn serve(&mut self) -> Result<(), RunError> {
        // The first size is told like any other, so that an app need not guess it.
        if self.tell_size()?.is_break() {
            return Ok(());
        }
        loop {
            self.terminal.use_mouse(self.app.mouse()).map_err(TerminalError::Io)?;
            self.terminal.draw(|frame| self.app.view(frame)).map_err(TerminalError::Io)?;
            if self.handle_what_has_come()?.is_break() {
                return Ok(());
            }
        }
    }

    /// Waits for one wake-up and handles it with all that have arrived by then.
    fn handle_what_has_come(&mut self) -> Result<ControlFlow<()>, RunError> {
        let Ok(first) = self.wakes.recv() else {
            let silence = io::Error::other("nothing reads it any more");
            return Err(RunError::Input(silence));
        };
        if self.handle(first)?.is_break() {
            return Ok(ControlFlow::Break(()));
        }
        for _ in 0..QUEUE {
            let Ok(wake) = self.wakes.try_recv() else {
                break;
            };
            if self.handle(wake)?.is_break() {
                return Ok(ControlFlow::Break(()));
            }
        }
        Ok(ControlFlow::Continue(()))
    }

    fn handle(&mut self, wake: Wake) -> Result<ControlFlow<()>, RunError> {
        match wake {
            Wake::Event(event) => self.update(event),
            Wake::Continued => {
                self.terminal.reclaim().map_err(TerminalError::Io)?;
                self.tell_size()
            }
            Wake::Resized => self.tell_size(),
            Wake::Ending(kept) => {
                (self.keep)(self.app);
                // The signal thread may have stopped waiting.
                let _ = kept.send(());
                Ok(ControlFlow::Continue(()))
            }
            Wake::InputFailed(error) => Err(RunError::Input(error)),
        }
    }

    /// Tells the app of a new size once, however many events announced it.
    fn tell_size(&mut self) -> Result<ControlFlow<()>, RunError> {
        let size = self.terminal.size().map_err(TerminalError::Io)?;
        if size == self.size {
            return Ok(ControlFlow::Continue(()));
        }
        self.size = size;
        self.update(Event::Resize { columns: size.width, rows: size.height })
    }

    fn update(&mut self, event: Event) -> Result<ControlFlow<()>, RunError> {
        self.faults.trigger(&event);
        for effect in self.app.update(event) {
            match effect {
                Effect::Quit => return Ok(ControlFlow::Break(())),
                Effect::Copy(clip) => self.terminal.copy(&clip).map_err(TerminalError::Io)?,
                Effect::Suspend => self.terminal.suspend().map_err(TerminalError::Io)?,
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
