//! The thread that writes frames, one at a time.
//!
//! A terminal that does not read keeps this thread waiting, and no other.

use std::io::{self, Write};
use std::sync::Arc;
use std::sync::mpsc::{self, Sender};
use std::thread;

use super::turn::Turn;
use crate::tui::event::Wake;
use crate::tui::wakes::Wakes;

/// How much is written at a time, in bytes. After each piece it is asked whose turn it is.
const PIECE: usize = 4096;

/// Hands frames to the thread.
pub(super) struct Writer {
    frames: Sender<(Turn, Vec<u8>)>,
    is_idle: bool,
}

impl Writer {
    /// Starts the thread, which ends with this. It says when a frame has been written.
    pub(super) fn start(wakes: Arc<Wakes>) -> io::Result<Writer> {
        let (frames, given) = mpsc::channel::<(Turn, Vec<u8>)>();
        thread::Builder::new().name("output".into()).spawn(move || {
            for (turn, bytes) in given {
                wakes.put_first(Wake::Written(write(turn, &bytes)));
            }
        })?;
        Ok(Writer { frames, is_idle: true })
    }

    pub(super) fn is_idle(&self) -> bool {
        self.is_idle
    }

    /// Writes a frame, which is cut off where the turn ends.
    pub(super) fn write(&mut self, turn: Turn, bytes: Vec<u8>) -> io::Result<()> {
        self.is_idle = false;
        let gone = |_| io::Error::other("the thread that writes frames is gone");
        self.frames.send((turn, bytes)).map_err(gone)
    }

    /// Notes that the frame has been written.
    pub(super) fn rest(&mut self) {
        self.is_idle = true;
    }
}

fn write(turn: Turn, bytes: &[u8]) -> io::Result<()> {
    for piece in bytes.chunks(PIECE) {
        // Asked under the lock of the output, which whoever ends the turn needs for the last bytes.
        let mut out = io::stdout().lock();
        if !turn.lasts() {
            return Ok(());
        }
        out.write_all(piece)?;
        out.flush()?;
    }
    Ok(())
}
