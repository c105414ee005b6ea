//! A player that writes what would be heard.

use std::fmt;
use std::io::{Seek, Write};
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use hound::{SampleFormat, WavSpec, WavWriter};

use super::super::samples::{Frames, RATE, Samples, to_16_bits};
use super::Player;
use super::clocked::Clocked;
use super::error::SoundError;
use super::state::PlayerState;

/// Plays into a WAV file of 16 bits, by a clock that its owner moves. While nothing sounds nothing is
/// written.
pub struct WavPlayer<W: Write + Seek>(Mutex<Tape<W>>);

struct Tape<W: Write + Seek> {
    clocked: Clocked,
    file: WavWriter<W>,
}

/// One channel of 16 bits.
const FORM: WavSpec = WavSpec {
    channels: 1,
    sample_rate: RATE,
    bits_per_sample: 16,
    sample_format: SampleFormat::Int,
};

impl<W: Write + Seek> WavPlayer<W> {
    /// A player that writes there.
    ///
    /// # Errors
    ///
    /// Where the head of the file cannot be written.
    pub fn new(writer: W) -> Result<WavPlayer<W>, SoundError> {
        let file = WavWriter::new(writer, FORM).map_err(why)?;
        Ok(WavPlayer(Mutex::new(Tape { clocked: Clocked::default(), file })))
    }

    /// Lets time pass. What cannot be written ends the playing; the state says why.
    pub fn advance(&self, time: Duration) {
        self.with(|tape| tape.advance(time));
    }

    /// Completes the file.
    ///
    /// # Errors
    ///
    /// Where it cannot be written to its end.
    pub fn finish(self) -> Result<(), SoundError> {
        let tape = self.0.into_inner().unwrap_or_else(PoisonError::into_inner);
        tape.file.finalize().map_err(why)
    }

    fn with<T>(&self, act: impl FnOnce(&mut Tape<W>) -> T) -> T {
        act(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl<W: Write + Seek> Tape<W> {
    fn advance(&mut self, time: Duration) {
        let mut written = Ok(());
        self.clocked.advance(time, |heard| {
            for sample in heard {
                if written.is_ok() {
                    written = self.file.write_sample(to_16_bits(*sample));
                }
            }
        });
        if let Err(error) = written {
            self.clocked.fail(PlayerState::Failed(why(error)));
        }
    }
}

fn why(error: hound::Error) -> SoundError {
    SoundError::Writing(match error {
        hound::Error::IoError(error) => crate::words::in_plain_words(&error),
        other => other.to_string(),
    })
}

impl<W: Write + Seek + Send> Player for WavPlayer<W> {
    fn start(&self, samples: Box<dyn Samples>) {
        self.with(|tape| tape.clocked.start(samples));
    }

    fn stop(&self) {
        self.with(|tape| tape.clocked.stop());
    }

    fn position(&self) -> Frames {
        self.with(|tape| tape.clocked.position())
    }

    fn state(&self) -> PlayerState {
        self.with(|tape| tape.clocked.state())
    }

    /// The clock is the owner's, so there is nothing to wait for: the fade is written at once.
    fn silence(&self) {
        self.stop();
        self.advance(super::voice::FADE);
    }
}

impl<W: Write + Seek + Send> fmt::Debug for WavPlayer<W> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("WavPlayer").field(&self.state()).finish()
    }
}
