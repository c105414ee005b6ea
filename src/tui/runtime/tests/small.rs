//! A small app that does what a test says, and a terminal that only counts.

use std::cell::Cell;
use std::io;
use std::rc::Rc;
use std::sync::Arc;

use ratatui::Frame;
use ratatui::layout::Size;

use crate::sound::{Player, PlayerState, SilentPlayer};
use crate::tui::clipboard::Clip;
use crate::tui::event::{Event, SoundNews};
use crate::tui::job_control::Stop;
use crate::tui::mouse::Mouse;
use crate::tui::runtime::app::{App, Effect};
use crate::tui::runtime::display::Display;
use crate::tui::runtime::error::RunError;
use crate::tui::runtime::serve::Runtime;
use crate::tui::runtime::sound::Sound;
use crate::tui::wakes::Wakes;

/// What the app is told.
pub(super) enum Told {
    /// A key, by its name.
    Key(String),
    Sound(SoundNews),
    Answer(u32),
}

/// The app with all that it runs on.
#[derive(Clone, Default)]
pub(super) struct Stage {
    pub(super) wakes: Arc<Wakes>,
    pub(super) player: Arc<SilentPlayer>,
    /// How many frames were drawn.
    pub(super) frames: Rc<Cell<u32>>,
    /// What the player was doing when the process stopped.
    pub(super) stopped_with: Rc<Cell<Option<PlayerState>>>,
}

impl Stage {
    pub(super) fn type_keys(&self, keys: &str) {
        for key in keys.split_whitespace() {
            self.wakes.put(Event::Key(key.parse().unwrap()));
        }
    }

    /// Runs an app that reacts like this until it quits, with these keys already typed.
    pub(super) fn run<'a>(
        &self,
        keys: &str,
        react: impl FnMut(Told) -> Vec<Effect<u32>> + 'a,
    ) -> Result<(), RunError> {
        self.type_keys(keys);
        let mut app = Small(Box::new(react));
        let player: Arc<dyn Player> = Arc::<SilentPlayer>::clone(&self.player);
        let wakes = Arc::clone(&self.wakes);
        Runtime::new(&mut app, |_| {}, self.clone(), Sound::new(player), wakes).run().map(drop)
    }
}

/// An app that reacts.
struct Small<'a>(React<'a>);

type React<'a> = Box<dyn FnMut(Told) -> Vec<Effect<u32>> + 'a>;

impl App for Small<'_> {
    type Answer = u32;

    fn update(&mut self, event: Event) -> Vec<Effect<u32>> {
        match event {
            Event::Key(key) => (self.0)(Told::Key(key.to_string())),
            Event::Sound(news) => (self.0)(Told::Sound(news)),
            Event::Resize { .. } | Event::Paste(_) | Event::Mouse(_) | Event::Time(_) => Vec::new(),
        }
    }

    fn finish(&mut self, answer: u32) -> Vec<Effect<u32>> {
        (self.0)(Told::Answer(answer))
    }

    fn view(&self, _frame: &mut Frame<'_>) {}
}

/// A terminal without a device.
impl Display for Stage {
    fn is_ready(&self) -> bool {
        true
    }

    fn has_read(&mut self) {}

    fn draw(&mut self, _view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        self.frames.set(self.frames.get() + 1);
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
        self.stopped_with.set(Some(self.player.state()));
        Ok(())
    }

    fn reclaim(&mut self) -> io::Result<()> {
        Ok(())
    }
}
