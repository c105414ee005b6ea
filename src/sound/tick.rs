//! The stroke of the metronome.

use std::f32::consts::TAU;

use super::samples::RATE;

/// How high a stroke is, in hertz, and how high one with an accent. Above the notes of a guitar, so
/// that it does not cover them.
const HERTZ: f32 = 1_480.0;
const ACCENTED_HERTZ: f32 = 2_217.0;
/// How loud a stroke without an accent is beside one with.
const PLAIN: f32 = 0.7;
/// How long until it has faded by 60 dB.
const FADED_S: f32 = 0.045;
/// How many frames it is heard.
const FRAMES: u32 = RATE / 20;

/// A stroke that has begun.
pub(super) struct Tick {
    frame: u32,
    hertz: f32,
    loud: f32,
}

impl Tick {
    pub(super) const fn new(accented: bool) -> Tick {
        let (hertz, loud) = if accented { (ACCENTED_HERTZ, 1.0) } else { (HERTZ, PLAIN) };
        Tick { frame: 0, hertz, loud }
    }

    /// The next sample, from -1 to 1; `None` after its end.
    pub(super) fn next(&mut self) -> Option<f32> {
        if self.frame == FRAMES {
            return None;
        }
        let seconds = self.frame as f32 / RATE as f32;
        self.frame += 1;
        // A sine begins at zero, and so without a jump.
        let fade = (-3.0 * std::f32::consts::LN_10 * seconds / FADED_S).exp();
        Some(self.loud * fade * (TAU * self.hertz * seconds).sin())
    }
}
