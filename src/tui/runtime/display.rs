//! What the loop draws on.

use std::io;

use ratatui::Frame;
use ratatui::layout::Size;

use crate::tui::clipboard::Clip;
use crate::tui::job_control::Stop;
use crate::tui::mouse::Mouse;
use crate::tui::terminal::TerminalGuard;

/// The terminal, as far as the loop needs it. Tests of the loop have one without a device.
pub(super) trait Display {
    /// Can it be given a frame, or is it still reading the one before?
    fn is_ready(&self) -> bool;

    /// Notes that it has read its frame.
    fn has_read(&mut self);

    /// Draws one frame.
    fn draw(&mut self, view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()>;

    /// Has the next frame put a text on the clipboard.
    fn copy(&mut self, clip: Clip);

    /// Has the next frame ask for mouse events, or for no more of them.
    fn use_mouse(&mut self, mouse: Mouse) -> io::Result<()>;

    /// The size of the next frames.
    fn measure(&mut self) -> io::Result<Size>;

    /// Stops the process until the shell continues it.
    fn suspend(&mut self, stop: Stop) -> io::Result<()>;

    /// Takes it again after another process stopped this one.
    fn reclaim(&mut self) -> io::Result<()>;
}

impl Display for TerminalGuard {
    fn is_ready(&self) -> bool {
        self.is_ready()
    }

    fn has_read(&mut self) {
        self.has_read();
    }

    fn draw(&mut self, view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        self.draw(view)
    }

    fn copy(&mut self, clip: Clip) {
        self.copy(clip);
    }

    fn use_mouse(&mut self, mouse: Mouse) -> io::Result<()> {
        self.use_mouse(mouse)
    }

    fn measure(&mut self) -> io::Result<Size> {
        self.measure()
    }

    fn suspend(&mut self, stop: Stop) -> io::Result<()> {
        self.suspend(stop)
    }

    fn reclaim(&mut self) -> io::Result<()> {
        self.reclaim()
    }
}
