//! The thread that waits for the keyboard.
//!
//! It blocks in the terminal library and holds that library's reader until the program ends. So
//! nothing else may ask the terminal a question: this thread would read the answer. That is why the
//! terminal guard never asks for the cursor position, as `Terminal::clear` does.

use std::sync::mpsc::SyncSender;
use std::{io, thread};

use ratatui::crossterm::event;

use super::event::Wake;

/// Starts the thread. It ends when the main thread no longer receives, or when reading fails. It is
/// never joined, because nothing can interrupt a blocking read.
pub(super) fn start(wake: SyncSender<Wake>) -> io::Result<()> {
    thread::Builder::new().name("input".into()).spawn(move || read_events(&InputSender(wake)))?;
    Ok(())
}

fn read_events(wake: &InputSender) {
    loop {
        let (reason, last) = match event::read() {
            Ok(event) => (Wake::from_terminal(event), false),
            Err(error) => (Some(Wake::InputFailed(error)), true),
        };
        let Some(reason) = reason else { continue };
        // Where nobody receives, the program is already ending.
        if wake.0.send(reason).is_err() || last {
            return;
        }
    }
}

/// The sender, which also reports a panic of the thread. Otherwise the main thread would wait for
/// ever, when the panic hook has already given the terminal back.
struct InputSender(SyncSender<Wake>);

impl Drop for InputSender {
    fn drop(&mut self) {
        if thread::panicking() {
            let error = io::Error::other("the thread that reads it panicked");
            let _ = self.0.send(Wake::InputFailed(error));
        }
    }
}
