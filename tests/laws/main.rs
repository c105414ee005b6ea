//! Laws that hold for every scale, root and chord: no table of results, only what must be so.
//!
//! Each law is worked out here with pitch arithmetic of the tests' own, so that a formula of the
//! program is never checked against itself.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "the functions of a test are a test too"
)]

#[path = "../support/arithmetic.rs"]
mod arithmetic;
mod comping;
mod lines_through_changes;
mod lists;
mod made_up_tune;
mod neighbours;
mod order;
mod scene;
mod search;
mod sentences;
mod spelling;
#[path = "../tab/reader.rs"]
mod tab_reader;
mod transposition;

use fretloom_theory::{ChordScale, NoteName, Scale, ScaleKind};

/// The everyday names of the twelve notes: both of the black ones.
const ROOTS: [&str; 17] =
    ["C", "C#", "Db", "D", "D#", "Eb", "E", "F", "F#", "Gb", "G", "G#", "Ab", "A", "A#", "Bb", "B"];

/// Chords of every kind that a chart has, without their root: common practice, no source.
const CHORDS: [&str; 34] = [
    "", "m", "dim", "+", "6", "m6", "6/9", "add9", "maj7", "maj9", "maj7#11", "maj7#5", "m7", "m9",
    "m11", "m(maj7)", "7", "9", "13", "7#11", "7b5", "7#5", "7b9", "13b9", "7#9", "7b13", "7b9b13",
    "7alt", "7sus4", "7sus4b9", "m7b5", "dim7", "5", "sus2",
];

fn scale(root: &str, kind: &ScaleKind) -> Scale {
    Scale::new(root.parse::<NoteName>().unwrap(), kind.clone())
}

/// A scale on `root` under a chord on the same root.
fn over(root: &str, chord: &str, kind: &ScaleKind) -> ChordScale {
    let chord = format!("{root}{chord}");
    let read = chord.parse().unwrap_or_else(|error| panic!("{error}"));
    ChordScale::over(read, scale(root, kind))
}

/// Every named scale on `root`, alone and under every chord on that root.
fn grounds(root: &str) -> impl Iterator<Item = ChordScale> {
    ScaleKind::all().iter().flat_map(move |kind| {
        let alone = std::iter::once(ChordScale::alone(scale(root, kind)));
        let chords = CHORDS.iter().filter(|chord| is_worth_its_time(kind, chord));
        alone.chain(chords.map(move |chord| over(root, chord, kind)))
    })
}

/// The chromatic scale holds more pairs than all other scales together; a few chords do for it.
fn is_worth_its_time(kind: &ScaleKind, chord: &str) -> bool {
    kind.name() != "chromatic" || matches!(chord, "maj7#11" | "7alt" | "m7b5")
}

/// What a chord with its scale is called when a law fails on it.
fn called(chord_scale: &ChordScale) -> String {
    match chord_scale.chord() {
        Some(chord) => format!("{chord} in {}", chord_scale.scale()),
        None => chord_scale.scale().to_string(),
    }
}
