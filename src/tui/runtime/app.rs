//! What the runtime runs, and what it is asked to do.

use std::fmt;

use ratatui::Frame;

use super::jobs::Job;
use crate::sound::Samples;
use crate::tui::clipboard::Clip;
use crate::tui::event::Event;
use crate::tui::mouse::Mouse;

/// A program for the terminal: a state that events change and frames show.
pub trait App {
    /// What its jobs find out.
    type Answer: Send + 'static;

    /// Changes the state, and says what is to be done outside of it, in that order.
    fn update(&mut self, event: Event) -> Vec<Effect<Self::Answer>>;

    /// Takes what a job found out: the one that was asked for last about its subject.
    fn finish(&mut self, answer: Self::Answer) -> Vec<Effect<Self::Answer>>;

    /// Whose the mouse is now; the terminal's, unless the app wants it.
    fn mouse(&self) -> Mouse {
        Mouse::Free
    }

    /// Does it want to know what time it is?
    fn wants_time(&self) -> bool {
        false
    }

    /// Draws the state on a frame of any size, down to nothing.
    fn view(&self, frame: &mut Frame<'_>);
}

/// What an [`App`] asks the runtime to do, since it does nothing to the world itself.
#[non_exhaustive]
pub enum Effect<Answer> {
    /// Ends the program; later effects and events are not carried out.
    Quit,
    /// Stops the program as Ctrl-Z does, until the shell continues it.
    Suspend,
    /// Asks the terminal to put a text on the player's clipboard.
    Copy(Clip),
    /// Plays these samples in place of what sounds. While something sounds the app is told by
    /// [`Event::Sound`] how it goes.
    Play(Box<dyn Samples>),
    /// Fades what sounds and ends it.
    StopPlaying,
    /// Draws nothing anew: what is to be seen is what the last frame shows.
    KeepFrame,
    /// Does work on another thread. [`App::finish`] is given what it finds out, unless another job
    /// about the same thing has been asked for by then: only the last one matters.
    Work(Job<Answer>),
}

impl<Answer> fmt::Debug for Effect<Answer> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Effect::Quit => f.write_str("Quit"),
            Effect::Suspend => f.write_str("Suspend"),
            Effect::Copy(clip) => f.debug_tuple("Copy").field(clip).finish(),
            Effect::Play(_) => f.write_str("Play"),
            Effect::StopPlaying => f.write_str("StopPlaying"),
            Effect::KeepFrame => f.write_str("KeepFrame"),
            Effect::Work(job) => f.debug_tuple("Work").field(job).finish(),
        }
    }
}
