//! Explaining a line, from a hundred notes to a hundred thousand.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use std::hint::black_box;
use std::time::{Duration, Instant};

use divan::Bencher;
use effort::Effort;
use fretloom_theory::{
    ChordSymbol, Explanation, Note, Part, PitchClass, PitchClassSet, Quarters, Score, Timeline,
    TriadPair, TriadQuality,
};
use ratio::Ratios;

/// Bars of eighths: pairs, an approach, a scale run, and thirds that are no pair.
const BARS: [&str; 6] = [
    "F4 A4 C5 G4 B4 D5 A4 F4",
    "G4 B4 D5 Bb4 C5 F4 A4 E4",
    "E4 G4 C5 F5 D5 A4 D4 F4",
    "C4 E4 G4 B4 A4 F4 D4 B3",
    "D4 E4 F4 G4 A4 B4 C5 D5",
    "D4 F4 E4 G4 F4 A4 G4 B4",
];
const CHORDS: [&str; 8] = ["Dm7", "G7", "Cmaj7", "Am7", "Dm7b5", "G7alt", "Cm6", "F7"];

/// A line of so many notes, eight a bar, over a chord a bar.
fn score(notes: u64) -> (Score, Part) {
    let bars = 0..notes.div_ceil(8);
    let chord = |bar: u64| {
        let symbol = ChordSymbol::read(CHORDS[bar as usize % CHORDS.len()]);
        (Quarters::new(bar * 4, 1).unwrap(), symbol)
    };
    let chords = Timeline::of(bars.clone().map(chord));
    let line = bars.flat_map(|bar| {
        let pitches = BARS[bar as usize * 7 / 3 % BARS.len()].split(' ').enumerate();
        pitches.map(move |(at, pitch)| {
            let onset = Quarters::new(bar * 8 + at as u64, 2).unwrap();
            Note::new(onset, Quarters::EIGHTH, pitch.parse().unwrap()).unwrap()
        })
    });
    (Score { chords, ..Score::default() }, Part::new(line.take(notes as usize)))
}

/// The least that anybody would do: the pairs all of whose notes sound in a bar. No groups, no free
/// notes, no chords, nothing of what stands beside it.
fn pairs_that_sound(score: &Score, part: &Part, pairs: &[PitchClassSet]) -> usize {
    let mut sounded: Vec<PitchClassSet> = Vec::new();
    for note in part.notes() {
        let bar = score.bars.at(note.onset()).unwrap().index as usize;
        sounded.resize(sounded.len().max(bar + 1), PitchClassSet::EMPTY);
        sounded[bar] = sounded[bar].with(note.pitch().pitch().pitch_class());
    }
    let within = |set: &PitchClassSet| pairs.iter().filter(|pair| pair.is_subset(*set)).count();
    sounded.iter().map(within).sum()
}

fn all_pairs() -> Vec<PitchClassSet> {
    let (all, c) = (PitchClassSet::CHROMATIC, PitchClass::C);
    let tertian = TriadQuality::TERTIAN;
    TriadPair::within(all, tertian, c).map(TriadPair::set).collect()
}

fn explained(score: &Score, part: &Part) -> usize {
    let bars = Explanation::of(score, part).bars;
    bars.iter().filter(|bar| bar.pair.is_some()).count()
}

#[divan::bench]
fn thousand_notes(bencher: Bencher<'_, '_>) {
    let (score, part) = score(1000);
    bencher.bench(|| explained(black_box(&score), black_box(&part)));
}

fn timed(work: impl FnOnce() -> usize) -> Duration {
    let start = Instant::now();
    black_box(work());
    start.elapsed()
}

/// Time for each note, which should not grow with the line.
fn print_growth() {
    println!("\nfor each note of a line        plain        ours   ratio");
    let pairs = all_pairs();
    let measured: &[(u64, usize)] = &[(100, 100), (1_000, 20), (10_000, 4), (100_000, 2)];
    for &(notes, turns) in Effort::of_this_run().choose(measured, &[(100, 1), (1_000, 1)]) {
        let (score, part) = score(notes);
        let (mut plain, mut ours) = (Duration::MAX, Duration::MAX);
        for _ in 0..turns {
            plain = plain.min(timed(|| pairs_that_sound(&score, &part, &pairs)));
            ours = ours.min(timed(|| explained(&score, &part)));
        }
        let each = |time: Duration| time.as_secs_f64() * 1e6 / notes as f64;
        let ratio = ours.as_secs_f64() / plain.as_secs_f64();
        println!("  {notes:>7} notes {:>16.2} µs {:>8.2} µs {ratio:>7.1}", each(plain), each(ours));
    }
}

fn main() {
    divan::main();
    let (score, part) = score(1000);
    let pairs = all_pairs();
    Ratios::to("the pairs that sound in each bar", || pairs_that_sound(&score, &part, &pairs))
        .and("`Explanation::of`", || explained(&score, &part))
        .print("a line of 1,000 notes");
    print_growth();
}
