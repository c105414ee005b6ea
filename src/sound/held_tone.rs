//! The soft tone of the drone.

use std::f32::consts::TAU;

use super::samples::RATE;

/// How strong its partials are, the fundamental first: few, so that the line stays clear, and enough
/// for a bass to be heard from small loudspeakers.
const PARTIALS: [f32; 5] = [1.0, 0.55, 0.3, 0.12, 0.05];

/// One round of the tone, which is read at any pace.
pub(super) struct Wave {
    /// One more than there are places, so that the last has a neighbour.
    table: Vec<f32>,
}

/// A tone that is held.
pub(super) struct HeldTone {
    /// Where in its round it is: a whole round is 2³².
    phase: u32,
    step: u32,
}

/// How many bits of a phase say which place of the table it is at.
const PLACE_BITS: u32 = 11;

impl Wave {
    pub(super) fn new() -> Wave {
        let places = 1_u32 << PLACE_BITS;
        let all: f32 = PARTIALS.iter().sum();
        let sample = |place: u32| {
            let angle = TAU * place as f32 / places as f32;
            let partials = PARTIALS.iter().zip(1_u8..);
            let sum: f32 =
                partials.map(|(part, count)| part * (f32::from(count) * angle).sin()).sum();
            // The partials never add up to more than their sum.
            sum / all
        };
        Wave { table: (0..=places).map(sample).collect() }
    }

    fn at(&self, phase: u32) -> f32 {
        const BELOW: u32 = 32 - PLACE_BITS;
        let place = (phase >> BELOW) as usize;
        let between = (phase & ((1 << BELOW) - 1)) as f32 / (1_u32 << BELOW) as f32;
        match self.table.get(place..place + 2) {
            Some([one, next]) => one + between * (next - one),
            _ => 0.0,
        }
    }
}

impl HeldTone {
    pub(super) fn new(hertz: f64) -> HeldTone {
        let round = f64::from(u32::MAX) + 1.0;
        HeldTone { phase: 0, step: (hertz / f64::from(RATE) * round).round() as u32 }
    }

    /// The next sample, from -1 to 1.
    pub(super) fn next(&mut self, wave: &Wave) -> f32 {
        let sample = wave.at(self.phase);
        self.phase = self.phase.wrapping_add(self.step);
        sample
    }
}
