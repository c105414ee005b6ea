//! Cadences as they are taught and played, with the scale that players reach for first over each
//! chord: common practice, no source. Where two are as usual both stand there.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "material/cadences.rs"]
mod material;

use fretloom_theory::{Chord, Interval, Reading};
use material::CADENCES;

/// What stands for a scale.
const SCALES: [(&str, &str); 20] = [
    ("L", "Lydian"),
    ("I", "Ionian"),
    ("M", "Mixolydian"),
    ("D", "Dorian"),
    ("P", "Phrygian"),
    ("A", "Aeolian"),
    ("Lo", "Locrian"),
    ("L2", "Locrian natural 2"),
    ("Mm", "melodic minor"),
    ("Hm", "harmonic minor"),
    ("Ld", "Lydian dominant"),
    ("Alt", "altered"),
    ("M6", "Mixolydian b6"),
    ("Pd", "Phrygian dominant"),
    ("Hw", "half-whole diminished"),
    ("Wh", "whole-half diminished"),
    ("Wt", "whole tone"),
    ("La", "Lydian augmented"),
    ("Db2", "Dorian b2"),
    ("A7", "altered bb7"),
];

struct Case {
    chord: Chord,
    scales: Vec<&'static str>,
}

fn cases(cadence: &str) -> Vec<Case> {
    let full = |short: &str| SCALES.iter().find(|(name, _)| *name == short).unwrap().1;
    let case = |word: &str| {
        let (symbol, scales) = word.split_once(':').unwrap_or((word, ""));
        let scales = scales.split('/').filter(|scale| !scale.is_empty());
        Case { chord: symbol.parse().unwrap(), scales: scales.map(full).collect() }
    };
    cadence.split(' ').map(case).collect()
}

/// A cadence so many semitones higher.
fn moved(chords: &[Chord], semitones: i8) -> Vec<Chord> {
    let steps = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6][semitones as usize];
    chords.iter().map(|chord| chord.up(Interval::new(steps, semitones)).unwrap()).collect()
}

#[test]
fn the_usual_scale_stands_first_in_every_key() {
    let (mut asked, mut wrong) = (0, Vec::new());
    for cadence in CADENCES {
        let cases = cases(cadence);
        let written: Vec<Chord> = cases.iter().map(|case| case.chord.clone()).collect();
        let mut in_c: Vec<String> = Vec::new();
        for up in 0..12 {
            let chords = moved(&written, up);
            let readings = Reading::tune(&chords, None);
            let kind = |reading: &Reading| reading.scales()[0].scale().kind().name().to_owned();
            let kinds: Vec<String> = readings.iter().map(kind).collect();
            if up == 0 {
                in_c.clone_from(&kinds);
            }
            assert_eq!(in_c, kinds, "{cadence}, {up} semitones up");
            for ((case, kind), reading) in cases.iter().zip(&kinds).zip(&readings) {
                if case.scales.is_empty() {
                    continue;
                }
                asked += 1;
                if !case.scales.contains(&kind.as_str()) {
                    wrong.push(format!("{cadence}: {:#} {reading}: {kind}", reading.chord()));
                }
            }
        }
    }
    assert!(CADENCES.len() >= 150, "{}", CADENCES.len());
    let right = 1.0 - wrong.len() as f64 / asked as f64;
    assert!(right >= 0.95, "{right} of {asked}\n{}", wrong.join("\n"));
}
