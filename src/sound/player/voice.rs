//! What a player plays, with the fade at its end.

use std::f32::consts::PI;
use std::time::Duration;

use super::super::samples::{Frames, Samples};

/// Samples on their way out, which fade away where they are asked to.
///
/// A cut in the middle of a wave is heard as a click, 9 dB of it above 6 kHz; a fade of 10 ms adds nothing
/// there.
pub(super) struct Voice {
    samples: Box<dyn Samples>,
    /// How many frames of the fade have passed, once it has begun.
    faded: Option<usize>,
    given: u64,
    has_ended: bool,
}

/// How long the fade lasts.
pub(super) const FADE: Duration = Duration::from_millis(12);

impl Voice {
    pub(super) fn new(samples: Box<dyn Samples>) -> Voice {
        Voice { samples, faded: None, given: 0, has_ended: false }
    }

    /// Fades from the next sample on, and then ends.
    pub(super) fn fade(&mut self) {
        self.faded.get_or_insert(0);
    }

    /// Does it fade, or has it?
    pub(super) fn is_fading(&self) -> bool {
        self.faded.is_some()
    }

    /// Have all its samples been given?
    pub(super) fn has_ended(&self) -> bool {
        self.has_ended
    }

    /// How much has been given.
    pub(super) fn given(&self) -> Frames {
        Frames(self.given)
    }

    /// The next samples, as [`Samples::fill`] gives them.
    pub(super) fn fill(&mut self, block: &mut [f32]) -> usize {
        if self.has_ended {
            return 0;
        }
        let left = self.faded.map_or(usize::MAX, |faded| FADE_FRAMES.saturating_sub(faded));
        let wanted = block.len().min(left);
        let block = &mut block[..wanted];
        let given = self.samples.fill(block).min(wanted);
        self.has_ended = given < wanted || given == left;
        self.given += given as u64;
        if let Some(faded) = &mut self.faded {
            lower(&mut block[..given], *faded);
            *faded += given;
        }
        given
    }
}

const FADE_FRAMES: usize = 576;

/// Multiplies with half a wave of a cosine, which begins at 1 and ends at 0 without a corner.
fn lower(block: &mut [f32], faded: usize) {
    for (frame, sample) in block.iter_mut().enumerate() {
        let passed = (faded + frame + 1) as f32 / FADE_FRAMES as f32;
        *sample *= 0.5 + 0.5 * (PI * passed).cos();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Ones(usize);

    impl Samples for Ones {
        fn fill(&mut self, block: &mut [f32]) -> usize {
            let given = block.len().min(self.0);
            block[..given].fill(1.0);
            self.0 -= given;
            given
        }
    }

    fn all_of(voice: &mut Voice, size: usize) -> Vec<f32> {
        let mut all = Vec::new();
        let mut block = vec![0.0; size];
        while !voice.has_ended() {
            let given = voice.fill(&mut block);
            all.extend_from_slice(&block[..given]);
        }
        all
    }

    #[test]
    fn the_fade_is_as_long_as_it_says() {
        assert_eq!(Frames::in_time(FADE), Frames(FADE_FRAMES as u64));
    }

    #[test]
    fn samples_come_as_they_are_whatever_the_block() {
        for size in [1, 7, 100, 1_000] {
            let mut voice = Voice::new(Box::new(Ones(250)));
            assert_eq!(all_of(&mut voice, size), [1.0; 250], "{size}");
            assert_eq!(voice.given(), Frames(250));
            assert_eq!(voice.fill(&mut [0.0; 10]), 0, "nothing comes after the end");
        }
    }

    #[test]
    fn a_fade_falls_to_nothing_in_576_frames_whatever_the_block() {
        for size in [1, 5, 100, 576, 1_000] {
            let mut voice = Voice::new(Box::new(Ones(usize::MAX)));
            assert_eq!(voice.fill(&mut [0.0; 100]), 100);
            voice.fade();
            let fade = all_of(&mut voice, size);
            assert_eq!(fade.len(), 576, "{size}");
            assert!(fade.windows(2).all(|two| two[0] > two[1]), "{size}");
            // By hand: the half of the wave is 1/2, its last point 0.
            assert!((fade[287] - 0.5).abs() < 1e-6 && fade[575].abs() < 1e-6, "{size}");
            assert!(fade[0] > 0.9999, "{size}");
            // No step is larger than π/2 / 576, the steepest of a cosine.
            let steepest = fade.windows(2).map(|two| two[0] - two[1]).fold(0.0, f32::max);
            assert!(steepest < 0.00274, "{steepest}");
        }
    }

    #[test]
    fn what_ends_before_its_fade_does_ends_there() {
        let mut voice = Voice::new(Box::new(Ones(50)));
        voice.fade();
        assert_eq!(all_of(&mut voice, 20).len(), 50);
    }

    #[test]
    fn samples_that_lie_about_their_number_are_cut() {
        struct Liar;
        impl Samples for Liar {
            fn fill(&mut self, _block: &mut [f32]) -> usize {
                usize::MAX
            }
        }
        let mut voice = Voice::new(Box::new(Liar));
        assert_eq!(voice.fill(&mut [0.0; 10]), 10);
    }
}
