//! Shapes as they are tried out.

use std::sync::Arc;

use fretloom::answer::{find_tuning, struck_shapes};
use fretloom::library::LoadedTunings;
use fretloom::sound::{Frames, Mix, PlayStyle, Strike, begins_in_turn};
use fretloom_fretboard::{Fret, Neck, Place, StringNumber};
use fretloom_theory::Quarters;

use crate::measure::{cents, hertz_near};

fn place(string: u8, fret: u8) -> Place {
    Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
}

fn heard(tuning: &str, shapes: &[Vec<Place>], strike: Strike) -> Vec<f32> {
    let tuning = find_tuning(&LoadedTunings::load(None), tuning).unwrap().tuning;
    let performance = struck_shapes(&Neck::new(tuning), shapes, strike, &PlayStyle::default());
    let Frames(frames) = performance.frames().unwrap();
    let mut samples = vec![0.0; usize::try_from(frames).unwrap()];
    performance.samples(&Arc::new(Mix::full())).fill(&mut samples);
    samples
}

/// How strong a frequency is from a time on, for a quarter of a second.
fn strength(midi: f64, samples: &[f32], from_s: f64) -> f64 {
    let omega = std::f64::consts::TAU * 440.0 * ((midi - 69.0) / 12.0).exp2() / 48_000.0;
    let from = (from_s * 48_000.0) as usize;
    let parts = samples[from..from + 12_000].iter().zip(0_u32..);
    let (along, across) = parts.fold((0.0, 0.0), |(along, across), (sample, index)| {
        let (sin, cos) = (omega * f64::from(index)).sin_cos();
        (along + f64::from(*sample) * cos, across + f64::from(*sample) * sin)
    });
    f64::hypot(along, across)
}

/// G in first inversion on strings 4, 3 and 2, then F: B3 D4 G4 and A3 C4 F4. Two quarters each at 120,
/// and 0.11 s at the end.
#[test]
fn what_is_struck_together_sounds_together() {
    let shapes =
        [vec![place(4, 9), place(3, 7), place(2, 8)], vec![place(4, 7), place(3, 5), place(2, 6)]];
    let samples = heard("guitar-standard", &shapes, Strike::Together);
    assert_eq!(samples.len(), 2 * 48_000 + 5_280);
    for (from_s, chord) in [(0.1, [59.0, 62.0, 67.0]), (1.15, [57.0, 60.0, 65.0_f64])] {
        for midi in chord {
            let expected = 440.0 * ((midi - 69.0) / 12.0).exp2();
            assert!(cents(expected, hertz_near(expected, &samples, from_s)).abs() < 1.0, "{midi}");
            let other = if midi == 59.0 { 58.0 } else { midi - 1.0 };
            let beside = strength(other, &samples, from_s);
            assert!(strength(midi, &samples, from_s) > 4.0 * beside, "{midi}");
        }
    }
}

/// From the lowest note up, whichever string has it: on a ukulele with a high fourth string that is the
/// third. An eighth at 120 apart, and all ring until two quarters after the last.
#[test]
fn what_is_struck_in_turn_goes_up_and_rings_on() {
    let shape = [vec![place(4, 0), place(3, 0), place(2, 0)]];
    let samples = heard("ukulele-high-g", &shape, Strike::InTurn);
    assert_eq!(samples.len(), 24_000 + 48_000 + 5_280);
    // C4, E4, G4: each is there from its own time on, and still while all ring.
    for (midi, begins_s) in [(60.0, 0.0), (64.0, 0.25), (67.0, 0.5)] {
        let struck = strength(midi, &samples, begins_s);
        let rings = strength(midi, &samples, 1.0);
        assert!(struck > 10.0 && rings > struck / 10.0, "{midi}: {struck}, {rings}");
        let before = if begins_s > 0.0 { strength(midi, &samples, begins_s - 0.25) } else { 0.0 };
        assert!(struck > 5.0 * before, "{midi}: {before}, {struck}");
    }
    let begins = begins_in_turn(&[3, 3], Strike::InTurn);
    assert_eq!(begins, [Quarters::ZERO, Quarters::whole(3), Quarters::whole(6)]);
    assert_eq!(begins_in_turn(&[], Strike::Together), [Quarters::ZERO]);
}

#[test]
fn nothing_in_hand_is_silence() {
    let samples = heard("guitar-standard", &[], Strike::Together);
    assert!(samples.iter().all(|sample| *sample == 0.0));
    // A place that the neck does not have is no string.
    let samples = heard("guitar-standard", &[vec![place(9, 3)]], Strike::Together);
    assert!(samples.iter().all(|sample| *sample == 0.0));
}
