//! What samples are heard as, measured without any of the code that makes them.

use std::f64::consts::TAU;

/// Frames in a second.
pub(crate) const RATE: f64 = 48_000.0;

/// How long each of the two windows is, in seconds, and how far apart they begin.
const WINDOW_S: f64 = 0.25;
const APART_S: f64 = 0.05;

/// How high the partial nearest to `expected` hertz is: the phase of that frequency under a Hann window,
/// and once more a little later; what it has gone beyond what was expected is the difference.
pub(crate) fn hertz_near(expected: f64, samples: &[f32], from_s: f64) -> f64 {
    let first = phase(expected, samples, from_s);
    let later = phase(expected, samples, from_s + APART_S);
    let gone = later - first;
    let gone = gone - (gone / TAU).round() * TAU;
    expected + gone / (TAU * APART_S)
}

/// Cents from one frequency up to another.
pub(crate) fn cents(from: f64, to: f64) -> f64 {
    1200.0 * (to / from).log2()
}

/// The phase of a frequency from a time on, beside one that has run on since the beginning.
fn phase(hertz: f64, samples: &[f32], from_s: f64) -> f64 {
    let from = (from_s * RATE).round() as usize;
    let count = (WINDOW_S * RATE) as usize;
    let (mut along, mut across) = (0.0, 0.0);
    for index in 0..count {
        let window = 0.5 - 0.5 * (TAU * (index as f64 + 0.5) / count as f64).cos();
        let angle = TAU * hertz * (from + index) as f64 / RATE;
        let sample = f64::from(samples[from + index]) * window;
        along += sample * angle.cos();
        across -= sample * angle.sin();
    }
    across.atan2(along)
}

/// The greatest distance from zero.
pub(crate) fn peak(samples: &[f32]) -> f32 {
    samples.iter().fold(0.0, |most, sample| most.max(sample.abs()))
}

/// What of samples lies above 6 kHz: what a steep filter lets through, four times one of second order,
/// after the formulas of the Audio EQ Cookbook.
pub(crate) fn above_6_khz(samples: &[f32]) -> Vec<f64> {
    let omega = TAU * 6_000.0 / RATE;
    let mut rest: Vec<f64> = samples.iter().map(|sample| f64::from(*sample)).collect();
    for quality in [0.5098, 0.6013, 0.9, 2.5628] {
        rest = high_pass(&rest, omega, quality);
    }
    rest
}

/// The energy of a stretch.
pub(crate) fn energy(samples: &[f64]) -> f64 {
    samples.iter().map(|sample| sample * sample).sum()
}

fn high_pass(samples: &[f64], omega: f64, quality: f64) -> Vec<f64> {
    let (cos, alpha) = (omega.cos(), omega.sin() / (2.0 * quality));
    let whole = 1.0 + alpha;
    let (b0, b1) = ((1.0 + cos) / 2.0 / whole, -(1.0 + cos) / whole);
    let (a1, a2) = (-2.0 * cos / whole, (1.0 - alpha) / whole);
    let (mut x, mut y) = ([0.0; 2], [0.0; 2]);
    let step = |sample: &f64| {
        let now = b0 * (sample + x[1]) + b1 * x[0] - a1 * y[0] - a2 * y[1];
        x = [*sample, x[0]];
        y = [now, y[0]];
        now
    };
    samples.iter().map(step).collect()
}
