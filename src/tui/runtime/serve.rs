//! Waiting for what happens, handling it, and drawing what has become of it.

use std::ops::ControlFlow;
use std::sync::Arc;
use std::{io, mem, panic};

use jiff::ZonedDateTime;
use ratatui::layout::Size;

use super::app::{App, Effect};
use super::display::Display;
use super::error::RunError;
use super::jobs::{Job, Jobs};
use super::sound::Sound;
use crate::tui::event::{Event, Wake};
use crate::tui::faults::{Faults, panic_on_request};
use crate::tui::job_control::Stop;
use crate::tui::terminal::TerminalError;
use crate::tui::wakes::{BATCH, Wakes};

/// An app while it runs.
pub(super) struct Runtime<'a, A: App, K, D> {
    app: &'a mut A,
    keep: K,
    terminal: D,
    jobs: Jobs<A::Answer>,
    sound: Sound,
    /// The size that the app was told last.
    size: Size,
    /// Is there something to draw?
    changed: bool,
    wakes: Arc<Wakes>,
    faults: Faults,
}

impl<'a, A: App, K: FnMut(&A), D: Display> Runtime<'a, A, K, D> {
    pub(super) fn new(
        app: &'a mut A,
        keep: K,
        terminal: D,
        sound: Sound,
        wakes: Arc<Wakes>,
    ) -> Self {
        let jobs = Jobs::new(&wakes);
        let (size, changed, faults) = (Size::ZERO, true, Faults::from_environment());
        Runtime { app, keep, terminal, jobs, sound, size, changed, wakes, faults }
    }

    /// Runs the app until it quits; the terminal, to be given back.
    pub(super) fn run(mut self) -> Result<D, RunError> {
        let served = self.serve();
        (self.keep)(self.app);
        served?;
        Ok(self.terminal)
    }

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

    /// Waits for one wake-up and handles it with those that have arrived by then; asks how the sound
    /// is going where it is time to.
    fn handle_what_has_come(&mut self) -> Result<ControlFlow<()>, RunError> {
        let first = self.wakes.wait(self.sound.next_look());
        if self.app.wants_time() && self.update(Event::Time(ZonedDateTime::now()))?.is_break() {
            return Ok(ControlFlow::Break(()));
        }
        let wakes = Arc::clone(&self.wakes);
        let arrived = std::iter::from_fn(|| wakes.next());
        for wake in first.into_iter().chain(arrived).take(BATCH) {
            if self.handle(wake)?.is_break() {
                return Ok(ControlFlow::Break(()));
            }
        }
        match self.sound.news() {
            Some(news) => self.update(Event::Sound(news)),
            None => Ok(ControlFlow::Continue(())),
        }
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
                self.sound.end();
                (self.keep)(self.app);
                // Whoever ends the program may have stopped waiting.
                let _ = kept.send(());
            }
            Wake::Answered => return self.finish(),
            Wake::Panicked(panic) => {
                // The hook for panics has printed its message and given the terminal back; what is
                // chosen here is whole.
                (self.keep)(self.app);
                panic::resume_unwind(panic)
            }
            Wake::InputFailed(error) => return Err(RunError::Input(error)),
        }
        Ok(ControlFlow::Continue(()))
    }

    fn suspend(&mut self, stop: Stop) -> Result<(), RunError> {
        self.changed = true;
        // A program that stands still cannot end what it has begun to play.
        self.sound.silence();
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

    /// Gives the app what its jobs have found out.
    fn finish(&mut self) -> Result<ControlFlow<()>, RunError> {
        while let Some(answer) = self.jobs.take_answer() {
            let effects = self.app.finish(answer);
            if self.carry_out(effects)?.is_break() {
                return Ok(ControlFlow::Break(()));
            }
        }
        Ok(ControlFlow::Continue(()))
    }

    fn update(&mut self, event: Event) -> Result<ControlFlow<()>, RunError> {
        self.faults.trigger(&event);
        if let Some(key) = self.faults.key_for_job(&event) {
            let job = Job::new(move |_| panic_on_request(key));
            self.jobs.ask(job).map_err(RunError::Thread)?;
        }
        let effects = self.app.update(event);
        self.carry_out(effects)
    }

    fn carry_out(&mut self, effects: Vec<Effect<A::Answer>>) -> Result<ControlFlow<()>, RunError> {
        let had_changed = mem::replace(&mut self.changed, true);
        for effect in effects {
            match effect {
                Effect::Quit => return Ok(ControlFlow::Break(())),
                Effect::Copy(clip) => self.terminal.copy(clip),
                Effect::Suspend => self.suspend(Stop::CTRL_Z)?,
                Effect::Play(samples) => self.sound.play(samples),
                Effect::StopPlaying => self.sound.stop(),
                Effect::KeepFrame => self.changed = had_changed,
                Effect::Work(job) => self.jobs.ask(job).map_err(RunError::Thread)?,
            }
        }
        Ok(ControlFlow::Continue(()))
    }
}
