//! The thread that waits for the keyboard.
//!
//! It holds the terminal library's reader until the program ends. So nothing else may ask the
//! terminal a question: this thread would read the answer. That is why the terminal guard never asks
//! for the cursor position, as `Terminal::clear` does.
//!
//! On Unix it waits for the terminal itself and not in the library, which goes on asking a terminal
//! that has gone away, and so would use a whole processor for ever.

use std::sync::Arc;
use std::time::Duration;
use std::{io, thread};

use ratatui::crossterm::event;

use super::event::{Event, Wake};
use super::wakes::Wakes;

/// How long the library may look for more. It reads nothing where it may not wait at all; whoever
/// waits here is awake anyway, for a key has just come.
const MOMENT: Duration = Duration::from_millis(10);

/// Starts the thread. It ends when reading fails. It is never joined, because nothing can interrupt
/// a blocking read.
pub(super) fn start(wakes: Arc<Wakes>) -> io::Result<()> {
    let failed = Failed(wakes);
    thread::Builder::new().name("input".into()).spawn(move || {
        let error = read_events(&failed.0);
        failed.0.put_last(Wake::InputFailed(error));
    })?;
    Ok(())
}

/// Reads until that fails; the reason.
fn read_events(wakes: &Wakes) -> io::Error {
    loop {
        if let Err(error) = wait_for_terminal().and_then(|()| read_what_has_come(wakes)) {
            return error;
        }
    }
}

fn read_what_has_come(wakes: &Wakes) -> io::Result<()> {
    while event::poll(MOMENT)? {
        match Event::from_terminal(event::read()?) {
            Some(Event::Resize { .. }) => wakes.put_first(Wake::Resized),
            Some(event) => wakes.put(event),
            None => {}
        }
    }
    Ok(())
}

/// Waits until there is something to read.
///
/// # Errors
///
/// When the terminal has gone away: the one that keys come from, or the one that frames go to.
#[cfg(unix)]
fn wait_for_terminal() -> io::Result<()> {
    use rustix::event::{PollFd, PollFlags, poll};
    let (input, output) = (io::stdin(), io::stdout());
    let mut terminals = [
        PollFd::new(&input, PollFlags::IN),
        // An end is told without being asked for.
        PollFd::new(&output, PollFlags::empty()),
    ];
    while let Err(error) = poll(&mut terminals, None) {
        if error != rustix::io::Errno::INTR {
            return Err(error.into());
        }
    }
    let is_gone = |end: &PollFd<'_>| end.revents().intersects(PollFlags::HUP | PollFlags::ERR);
    if terminals.iter().any(is_gone) {
        return Err(io::Error::new(io::ErrorKind::NotConnected, "the terminal has gone away"));
    }
    Ok(())
}

/// The console of Windows does not go away under a program: it ends the program.
#[cfg(not(unix))]
fn wait_for_terminal() -> io::Result<()> {
    while !event::poll(Duration::from_secs(3600))? {}
    Ok(())
}

/// The queue, which is also told of a panic of the thread. Otherwise the main thread would wait for
/// ever, when the panic hook has already given the terminal back.
struct Failed(Arc<Wakes>);

impl Drop for Failed {
    fn drop(&mut self) {
        if thread::panicking() {
            let error = io::Error::other("the thread that reads it panicked");
            self.0.put_last(Wake::InputFailed(error));
        }
    }
}
