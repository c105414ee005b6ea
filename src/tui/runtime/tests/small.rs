//! A small app that does what a test says, and a terminal that only counts.

use std::io;
use std::sync::Arc;

use ratatui::Frame;
use ratatui::layout::Size;

use crate::tui::clipboard::Clip;
use crate::tui::event::Event;
use crate::tui::job_control::Stop;
use crate::tui::mouse::Mouse;
use crate::tui::runtime::app::{App, Effect};
use crate::tui::runtime::display::Display;
use crate::tui::runtime::error::RunError;
use crate::tui::runtime::serve::Runtime;
use crate::tui::wakes::Wakes;

/// What the app is told.
pub(super) enum Told {
    /// A key, by its name.
    Key(String),
    Answer(u32),
}

/// How the app answers.
type React<'a> = Box<dyn FnMut(Told) -> Vec<Effect<u32>> + 'a>;

/// An app that reacts.
struct Small<'a>(React<'a>);

impl App for Small<'_> {
    type Answer = u32;

    fn update(&mut self, event: Event) -> Vec<Effect<u32>> {
        match event {
            Event::Key(key) => (self.0)(Told::Key(key.to_string())),
            Event::Resize { .. } | Event::Paste(_) | Event::Mouse(_) => Vec::new(),
        }
    }

    fn finish(&mut self, answer: u32) -> Vec<Effect<u32>> {
        (self.0)(Told::Answer(answer))
    }

    fn view(&self, _frame: &mut Frame<'_>) {}
}

/// A terminal without a device.
struct NoDevice;

impl Display for NoDevice {
    fn is_ready(&self) -> bool {
        true
    }

    fn has_read(&mut self) {}

    fn draw(&mut self, _view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        Ok(())
    }

    fn copy(&mut self, _clip: Clip) {}

    fn use_mouse(&mut self, _mouse: Mouse) -> io::Result<()> {
        Ok(())
    }

    fn measure(&mut self) -> io::Result<Size> {
        Ok(Size::new(80, 24))
    }

    fn suspend(&mut self, _stop: Stop) -> io::Result<()> {
        Ok(())
    }

    fn reclaim(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Runs an app that reacts like this until it quits, with these keys already typed.
pub(super) fn run<'a>(
    wakes: &Arc<Wakes>,
    keys: &str,
    react: impl FnMut(Told) -> Vec<Effect<u32>> + 'a,
) -> Result<(), RunError> {
    type_keys(wakes, keys);
    let mut app = Small(Box::new(react));
    Runtime::new(&mut app, |_| {}, NoDevice, Arc::clone(wakes)).run().map(|NoDevice| ())
}

pub(super) fn type_keys(wakes: &Wakes, keys: &str) {
    for key in keys.split_whitespace() {
        wakes.put(Event::Key(key.parse().unwrap()));
    }
}
