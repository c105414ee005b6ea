//! A plucked string.
//!
//! What a pick leaves on a string runs round in a loop as long as one period. On each round it loses a
//! little (it dies away) and is smoothed a little (its high partials die away first), as on a string.
//! All that smooths it adds up with numbers that are not negative and together not more than one: so
//! what runs round never grows, and what was within -1 and 1 stays there.

use std::f64::consts::TAU;

use super::noise::Noise;
use super::samples::RATE;

/// How fast all partials die away, in nepers a second: this much, and more the higher the note.
const DECAY_AT_LEAST: f64 = 1.1;
const DECAY_A_HERTZ: f64 = 1.0 / 500.0;
/// How much faster a partial dies away, in nepers a second, for the square of its hertz: a partial at
/// 1 kHz loses 17 dB a second more than the lowest ones, one at 3 kHz nine times that.
const DULLING: f64 = 2.0e-6;
/// Where the string is plucked, as a part of its length: over the end of the neck.
const PLUCKED_AT: f64 = 0.22;
/// How much of a pluck is the noise of the pick.
const PICK_NOISE: f32 = 0.08;
/// How long the pick and the pickup blur, in seconds.
const BLUR_S: f64 = 0.000_4;
/// Above this many hertz a loop of one step a frame would be too short for its smoothing.
const TWO_STEPS_ABOVE: f64 = 900.0;

/// How much softer strings are plucked, in decibels, octave by octave from C1 (32.7 Hz) to C7, so that
/// all are heard equally loud in their first 0.4 s: measured by EBU R 128 on what stands here.
const EVENED_DB: [f64; 7] = [2.8, 4.8, 5.2, 4.4, 2.2, 1.2, 0.0];
const EVENED_FROM_HERTZ: f64 = 32.7;

/// What a string that sounds at `hertz` is multiplied by so that it is heard as loud as others: from
/// 0 to 1.
pub(super) fn evened(hertz: f64) -> f32 {
    let last = (EVENED_DB.len() - 1) as f64;
    let octave = (hertz / EVENED_FROM_HERTZ).log2().clamp(0.0, last);
    let below = octave.floor();
    let at = |octave: f64| EVENED_DB.get(octave as usize).copied().unwrap_or_default();
    let softer = at(below) + (octave - below) * (at((below + 1.0).min(last)) - at(below));
    10.0_f64.powf(-softer / 20.0) as f32
}

/// A string that has been plucked: samples from -1 to 1, one after another, that die away.
pub(super) struct PluckedString {
    /// One round, the oldest at `at`.
    round: Vec<f32>,
    at: usize,
    loss: f32,
    smooth: Smooth,
    steps: usize,
}

/// Smooths: a filter of one pole, then one of three taps.
#[derive(Clone, Copy)]
struct Smooth {
    pole: f32,
    taps: [f32; 3],
    past: [f32; 3],
}

impl PluckedString {
    /// A string that sounds at `hertz`, plucked; `seed` settles the noise of the pick.
    pub(super) fn new(hertz: f64, seed: u64) -> PluckedString {
        let steps = if hertz > TWO_STEPS_ABOVE { 2 } else { 1 };
        let rate = f64::from(RATE) * steps as f64;
        let design = Design::new(hertz, rate);
        let decay = DECAY_AT_LEAST + hertz * DECAY_A_HERTZ;
        PluckedString {
            round: plucked(design.round, rate, seed),
            at: 0,
            loss: (-decay / hertz).exp() as f32,
            smooth: design.smooth(),
            steps,
        }
    }

    /// The next sample.
    pub(super) fn next(&mut self) -> f32 {
        let mut sample = 0.0;
        for _ in 0..self.steps {
            sample = self.step();
        }
        sample
    }

    fn step(&mut self) -> f32 {
        let Some(slot) = self.round.get_mut(self.at) else { return 0.0 };
        let sample = *slot;
        *slot = self.loss * self.smooth.step(sample);
        self.at = if self.at + 1 == self.round.len() { 0 } else { self.at + 1 };
        sample
    }
}

impl Smooth {
    fn step(&mut self, sample: f32) -> f32 {
        let [newest, older, _] = self.past;
        let now = sample + self.pole * (newest - sample);
        self.past = [now, newest, older];
        let [one, two, three] = self.taps;
        one * now + two * newest + three * older
    }
}

/// How long a round is, and what smooths it, so that the string is in tune.
struct Design {
    /// Samples of one round; the smoothing takes the rest of the period.
    round: usize,
    pole: f64,
    /// How late the three taps are together, from a half to one and a half samples.
    delay: f64,
}

/// How much three taps spread their sample, as a variance: the most that any delay from a half to one
/// and a half samples can have without a negative tap, and the least that all of them can.
const SPREAD: f64 = 0.25;

impl Design {
    fn new(hertz: f64, rate: f64) -> Design {
        let period = rate / hertz;
        let omega = TAU / period;
        // A spread of s loses s·ω²/2 nepers a round, and there are `hertz` rounds a second.
        let spread = 2.0 * DULLING * (rate / TAU).powi(2) / hertz;
        let pole = pole_of_spread((spread - SPREAD).max(0.0));
        let left = period - delay_of_pole(pole, omega);
        // The taps take between a half and one and a half; a whole round takes the rest.
        let round = (left - 0.5).floor().max(1.0);
        let wanted = (left - round).clamp(0.5, 1.5);
        let delay = delay_of_taps_that_sound_as(wanted, omega);
        Design { round: round as usize, pole, delay }
    }

    fn smooth(&self) -> Smooth {
        let taps = taps(self.delay).map(|tap| tap as f32);
        Smooth { pole: self.pole as f32, taps, past: [0.0; 3] }
    }
}

/// The pole p whose impulse response, (1 − p) pⁿ, has this variance: p / (1 − p)² = v.
fn pole_of_spread(spread: f64) -> f64 {
    if spread == 0.0 {
        return 0.0;
    }
    let middle = 1.0 + 1.0 / (2.0 * spread);
    middle - (middle * middle - 1.0).sqrt()
}

/// How many samples late a frequency leaves the filter of one pole.
fn delay_of_pole(pole: f64, omega: f64) -> f64 {
    (pole * omega.sin()).atan2(1.0 - pole * omega.cos()) / omega
}

/// Three taps of this mean and of the variance [`SPREAD`].
fn taps(delay: f64) -> [f64; 3] {
    let third = (SPREAD + delay * delay - delay) / 2.0;
    let second = delay - 2.0 * third;
    [1.0 - second - third, second, third]
}

/// How many samples late a frequency leaves the taps.
fn delay_of_taps(delay: f64, omega: f64) -> f64 {
    let [one, two, three] = taps(delay);
    let across = two * omega.sin() + three * (2.0 * omega).sin();
    let along = one + two * omega.cos() + three * (2.0 * omega).cos();
    across.atan2(along) / omega
}

/// The mean delay of taps that makes a frequency so late.
fn delay_of_taps_that_sound_as(wanted: f64, omega: f64) -> f64 {
    let mut delay = wanted;
    for _ in 0..8 {
        delay = (delay + wanted - delay_of_taps(delay, omega)).clamp(0.5, 1.5);
    }
    delay
}

/// What a pick leaves on a string: a round from -1 to 1, in whose middle nothing is left over.
fn plucked(count: usize, rate: f64, seed: u64) -> Vec<f32> {
    let mut noise = Noise::new(seed);
    let up = (count as f64 * PLUCKED_AT).max(1.0);
    // Each sample of the ideal pluck is the mean of what it covers, so that the edge lies between
    // samples where it should.
    let ideal = (0..count).map(|index| (up - index as f64).clamp(0.0, 1.0) as f32);
    let rough: Vec<f32> = ideal.map(|high| high + PICK_NOISE * noise.next()).collect();
    let width = ((rate * BLUR_S) as usize).clamp(1, count.div_ceil(4));
    let blurred = (0..count).map(|index| {
        let covered = (index..index + width).filter_map(|at| rough.get(at % count));
        covered.sum::<f32>() / width as f32
    });
    normal(blurred.collect())
}

/// The same about zero, and as large as fits within -1 and 1.
fn normal(round: Vec<f32>) -> Vec<f32> {
    let mean = round.iter().sum::<f32>() / round.len().max(1) as f32;
    let most = round.iter().map(|sample| (sample - mean).abs()).fold(0.0, f32::max);
    let scale = if most > 0.0 { 1.0 / most } else { 0.0 };
    round.into_iter().map(|sample| (sample - mean) * scale).collect()
}
