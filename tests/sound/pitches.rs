//! Every note of the range is in tune, and as loud as the others.

use std::sync::Arc;

use fretloom::sound::{ConcertPitch, Mix, Performance, PlayStyle, Struck};
use fretloom_theory::{Pitch, Quarters, Score};

use crate::measure::{RATE, cents, hertz_near};

/// The notes of all instruments, with some room.
const RANGE: std::ops::RangeInclusive<u8> = 24..=96;

fn pitch(midi: u8) -> Pitch {
    Pitch::from_midi(midi).unwrap()
}

/// A string, or a course of several, for so many quarters at 120.
fn plucked(midi: &[u8], quarters: u32, style: &PlayStyle) -> Vec<f32> {
    let pitches = midi.iter().map(|midi| pitch(*midi)).collect();
    let note =
        Struck { onset: Quarters::ZERO, end: Quarters::whole(quarters), pitches, accent: false };
    let performance = Performance::new(&Score::default(), &[note], style);
    let mut samples = vec![0.0; 24_000 * quarters as usize];
    performance.samples(&Arc::new(Mix::full())).fill(&mut samples);
    samples
}

#[test]
fn every_note_of_the_range_is_in_tune() {
    let mut worst = 0.0_f64;
    for a4 in [440.0, 415.0, 466.1] {
        let style =
            PlayStyle { concert_pitch: ConcertPitch::new(a4).unwrap(), ..PlayStyle::default() };
        for midi in RANGE {
            let expected = a4 * 2.0_f64.powf((f64::from(midi) - 69.0) / 12.0);
            let heard = hertz_near(expected, &plucked(&[midi], 2, &style), 0.1);
            let off = cents(expected, heard).abs();
            assert!(off < 1.0, "{midi} at {a4}: {off} cents");
            worst = worst.max(off);
        }
    }
    println!("at worst {worst:.4} cents off");
}

/// What a listener hears of a note's first second, in LUFS: by the loudness of EBU R 128.
fn loudness(samples: &[f32]) -> f64 {
    let mut meter = ebur128::EbuR128::new(1, RATE as u32, ebur128::Mode::M).unwrap();
    // A note's first 0.4 s.
    meter.add_frames_f32(&samples[..19_200]).unwrap();
    meter.loudness_momentary().unwrap()
}

#[test]
fn every_note_of_the_range_is_equally_loud() {
    let style = PlayStyle::default();
    let loud: Vec<(u8, f64)> =
        RANGE.map(|midi| (midi, loudness(&plucked(&[midi], 2, &style)))).collect();
    let all = || loud.iter().map(|(_, loud)| *loud);
    let (low, high) = (all().fold(0.0, f64::min), all().fold(-99.0, f64::max));
    println!("{loud:.2?}");
    assert!(high - low < 3.0, "{low:.1} to {high:.1} LUFS: {loud:.1?}");
}
