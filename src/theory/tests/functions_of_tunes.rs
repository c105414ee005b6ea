//! Whole tunes with what each chord does in them, as a player would pencil it: common practice, no
//! source. The tunes are made up for this.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "material/tunes.rs"]
mod tunes;

use std::collections::BTreeMap;

use fretloom_theory::{BarText, Meter, OptionalChords, PlanChord, Quarters, Reading};
use tunes::TUNES;

/// What stands for a function: how a reading of it begins, and the scales that it may take first;
/// none where any will do.
const FUNCTIONS: [(&str, &[&str], &[&str]); 17] = [
    ("T", &["I of", "tonic minor", "tonic of a blues", "♭III of"], &[]),
    ("S", &["IV of", "iv of"], &[]),
    // After its own dominant a IV is a passing tonic as well.
    ("TS", &["IV of", "iv of", "I of", "tonic minor", "IV of a blues"], &[]),
    ("ii", &["ii of"], &["Dorian", "melodic minor"]),
    ("iv", &["iv of"], &["Dorian", "melodic minor"]),
    ("iii", &["iii of", "ii of", "tonic minor"], &[]),
    ("vi", &["vi of", "tonic minor", "ii of"], &["Aeolian", "Dorian"]),
    ("V", &["V of"], &["Mixolydian", "half-whole diminished", "altered", "Lydian dominant"]),
    ("V-", &["V of"], &["altered", "Phrygian dominant", "Mixolydian b6"]),
    ("ts", &["tritone substitute"], &["Lydian dominant"]),
    ("bd", &["back-door dominant"], &["Lydian dominant"]),
    ("ii-", &["ii of"], &["Locrian", "Locrian natural 2"]),
    ("IV7", &["IV of a blues", "does not fall a fifth"], &["Lydian dominant", "Mixolydian"]),
    ("II7", &["V of", "does not fall a fifth"], &["Lydian dominant", "Mixolydian"]),
    ("b", &["♭"], &["Lydian", "Mixolydian"]),
    ("o", &["passing", "holds the root of", "by itself", "♯iv"], &[]),
    ("st", &["stands"], &["Dorian", "Lydian", "Mixolydian", "Phrygian"]),
];

/// Every chord of a tune: the moment at which it begins in quarters, and what stands for its function.
fn asked(tune: &str) -> (String, Vec<(Quarters, String)>) {
    let (mut text, mut asked) = (String::new(), Vec::new());
    for (bar, words) in tune.split('|').enumerate() {
        let words: Vec<&str> = words.split_whitespace().collect();
        text.push_str("| ");
        for (index, word) in words.iter().enumerate() {
            let (symbol, function) = word.split_once(':').unwrap_or((word, ""));
            text.push_str(symbol);
            text.push(' ');
            if !function.trim_matches('-').is_empty() {
                let quarters = bar * 4 + index * 4 / words.len();
                let moment = Quarters::new(quarters as u64, 1).unwrap();
                asked.push((moment, function.to_owned()));
            }
        }
    }
    (text + "|", asked)
}

fn readings(text: &str) -> Vec<(Quarters, Reading)> {
    let text = BarText::read(text, Meter::COMMON).unwrap();
    let chords = PlanChord::of_chorus(&text.unfolded(OptionalChords::Played), None);
    chords.into_iter().map(|(from, chord)| (from, chord.reading().clone())).collect()
}

/// How many of each function are read right, and what is not.
fn scored() -> (BTreeMap<&'static str, [usize; 2]>, Vec<String>) {
    let (mut score, mut wrong) = (BTreeMap::new(), Vec::new());
    for tune in TUNES {
        let (text, asked) = asked(tune);
        let readings = readings(&text);
        for (moment, function) in asked {
            let after = readings.partition_point(|(from, _)| *from <= moment);
            let reading = &readings[after - 1].1;
            let known = FUNCTIONS.iter().find(|(name, ..)| *name == function).unwrap();
            let scale = reading.scales()[0].scale().clone();
            let said = reading.to_string();
            let right = known.1.iter().any(|begins| said.starts_with(begins))
                && (known.2.is_empty() || known.2.contains(&scale.kind().name()));
            let [rights, all] = score.entry(known.0).or_insert([0, 0]);
            *rights += usize::from(right);
            *all += 1;
            if !right {
                wrong.push(format!(
                    "{function}: {:#} at {moment:?} is {said}, {scale}: {}",
                    reading.chord(),
                    &text[..text.len().min(50)]
                ));
            }
        }
    }
    (score, wrong)
}

#[test]
fn nine_tenths_of_each_function_are_read() {
    let (score, wrong) = scored();
    for (function, [right, all]) in &score {
        assert!(right * 10 >= all * 9, "{function}: {right} of {all}\n{}", wrong.join("\n"));
    }
    assert_eq!(score.len(), FUNCTIONS.len());
}
