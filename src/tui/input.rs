//! The thread that waits for the keyboard.
//!
//! It blocks in the terminal library and holds that library's reader for as long as the program
//! lives. So nothing else may ask the terminal a question: the answer would arrive here. That is
//! why the guard never calls what queries the cursor position (`Terminal::clear` does).

use std::sync::mpsc::SyncSender;
use std::{io, thread};

use ratatui::crossterm::event;

use super::event::Wake;

/// Starts the thread. It ends when nobody listens or reading fails; it is never joined, because
/// nothing can interrupt a blocking read.
pub(super) fn start(wake: SyncSender<Wake>) -> io::Result<()> {
    thread::Builder::new()
        .name("input".into())
        .spawn(move || read_until_the_end(&LastWord(wake)))?;
    Ok(())
}

fn read_until_the_end(wake: &LastWord) {
    loop {
        let (reason, last) = match event::read() {
            Ok(event) => (Wake::from_terminal(event), false),
            Err(error) => (Some(Wake::InputFailed(error)), true),
        };
        let Some(reason) = reason else { continue };
        // With nobody to tell, the program is already on its way out.
        if wake.0.send(reason).is_err() || last {
            return;
        }
    }
}

/// The sender, which also speaks when the thread panics: otherwise the main thread would wait for
/// ever, on a screen the panic hook has already given back.
struct LastWord(SyncSender<Wake>);

impl Drop for LastWord {
    fn drop(&mut self) {
        if thread::panicking() {
            let error = io::Error::other("the thread that reads it panicked");
            let _ = self.0.send(Wake::InputFailed(error));
        }
    }
}
