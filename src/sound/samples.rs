//! What is heard, as numbers.

use std::time::Duration;

/// Frames in a second. There is one channel, so a frame is one sample.
pub const RATE: u32 = 48_000;

/// Samples that are made when they are asked for.
///
/// They may go on for ever, as those of a loop do.
pub trait Samples: Send {
    /// Writes the next samples into a block from its beginning, each from -1 to 1, and returns how many
    /// there are. Fewer than the block holds: there are no more.
    fn fill(&mut self, block: &mut [f32]) -> usize;
}

/// A number of frames, and so a stretch of time: [`RATE`] of them are a second.
///
/// ```
/// use std::time::Duration;
/// use fretloom::sound::Frames;
///
/// assert_eq!(Frames::in_time(Duration::from_millis(10)), Frames(480));
/// assert_eq!(Frames(24_000).duration(), Duration::from_millis(500));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Debug)]
pub struct Frames(pub u64);

impl Frames {
    /// The whole frames of a stretch of time; the greatest number there is for one that is longer.
    #[must_use]
    pub fn in_time(time: Duration) -> Frames {
        let frames = time.as_nanos().saturating_mul(u128::from(RATE)) / NANOS_A_SECOND;
        Frames(u64::try_from(frames).unwrap_or(u64::MAX))
    }

    /// How long they last.
    #[must_use]
    pub fn duration(self) -> Duration {
        let rate = u64::from(RATE);
        Duration::from_secs(self.0 / rate)
            + Duration::from_nanos(self.0 % rate * 1_000_000_000 / rate)
    }
}

const NANOS_A_SECOND: u128 = 1_000_000_000;

/// A sample as the whole number of 16 bits that is nearest; what is too loud is as loud as can be.
pub(super) fn to_16_bits(sample: f32) -> i16 {
    (sample * f32::from(i16::MAX)).round() as i16
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frames_are_time() {
        assert_eq!(Frames::in_time(Duration::from_secs(3_600)), Frames(172_800_000));
        assert_eq!(Frames::in_time(Duration::MAX), Frames(u64::MAX));
        assert_eq!(Frames(172_800_001).duration(), Duration::new(3_600, 20_833));
        assert!(Frames(u64::MAX).duration() > Duration::from_secs(1));
    }

    #[test]
    fn samples_of_16_bits_never_turn_over() {
        let numbers = [0.0, 1.0, -1.0, 2.0, -2.0, 0.5, f32::NAN].map(to_16_bits);
        assert_eq!(numbers, [0, 32_767, -32_767, 32_767, -32_768, 16_384, 0]);
    }
}
