//! What is to be heard.

use std::sync::Arc;

use fretloom_theory::{DroneChord, Quarters, Score};

use super::clock::Clock;
use super::laid::Laid;
use super::mix::Mix;
use super::rendering::Rendering;
use super::samples::{Frames, Samples};
use super::struck::Struck;
use super::style::PlayStyle;

/// What is to be heard: notes as they are struck, the chords that are held beside them, and the
/// metronome, laid out in time.
///
/// It makes no samples of its own accord and is small; [`samples`](Self::samples) makes them while
/// they are asked for. The same music gives the same samples every time.
///
/// # Example
///
/// ```
/// use std::sync::Arc;
/// use fretloom::sound::{Frames, Heard, Mix, Performance, PlayStyle, Samples, Struck};
/// use fretloom_theory::{Pitch, Quarters, Score};
/// let a3 = Struck {
///     onset: Quarters::ZERO,
///     end: Quarters::whole(2),
///     pitches: vec![Pitch::from_midi(57).unwrap()],
///     accent: false,
/// };
/// let performance = Performance::new(&Score::default(), &[a3], &PlayStyle::default());
/// let mut block = [0.0; 480];
/// assert_eq!(performance.samples(&Arc::new(Mix::default())).fill(&mut block), 480);
/// let after_half_a_second = performance.clock().at(Frames(24_000)); // at 120
/// assert_eq!(after_half_a_second, Heard::At { moment: Quarters::ONE, round: 0 });
/// ```
#[derive(Clone, Debug)]
pub struct Performance {
    laid: Arc<Laid>,
}

impl Performance {
    /// These notes, with the bars, the tempi and the chords of a score, played in this style. Notes
    /// may come in any order; one without length is left out, and so is what more than 64 strings
    /// would have to play at once.
    #[must_use]
    pub fn new(score: &Score, notes: &[Struck], style: &PlayStyle) -> Performance {
        Performance::over(&DroneChord::all(score, style.drone), score, notes, style)
    }

    /// The same over chords that are settled already.
    #[must_use]
    pub fn over(
        drone: &[DroneChord],
        score: &Score,
        notes: &[Struck],
        style: &PlayStyle,
    ) -> Performance {
        Performance { laid: Arc::new(Laid::new(score, notes, drone, style)) }
    }

    /// How many frames it has, what rings on at its end among them; `None` where it goes round and
    /// round.
    #[must_use]
    pub fn frames(&self) -> Option<Frames> {
        self.laid.end().map(Frames)
    }

    /// Its samples from the beginning, the count-in first. They listen to `mix` while they are made.
    #[must_use]
    pub fn samples(&self, mix: &Arc<Mix>) -> Box<dyn Samples> {
        Box::new(Rendering::new(&self.laid, mix))
    }

    /// Its samples from a moment of the first round on, without a count-in. What was struck before
    /// sounds on.
    #[must_use]
    pub fn samples_from(&self, moment: Quarters, mix: &Arc<Mix>) -> Box<dyn Samples> {
        Box::new(Rendering::from(&self.laid, mix, self.laid.frame_at(moment)))
    }

    /// The clock of [`samples`](Self::samples).
    #[must_use]
    pub fn clock(&self) -> Clock {
        Clock::new(&self.laid)
    }

    /// The clock of [`samples_from`](Self::samples_from).
    #[must_use]
    pub fn clock_from(&self, moment: Quarters) -> Clock {
        Clock::from(&self.laid, self.laid.frame_at(moment))
    }
}
