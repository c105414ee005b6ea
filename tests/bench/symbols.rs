//! Reading chord symbols, and everything that follows from them: the scales of every chord, the
//! pairs of every chord in every scale that fits it, what each does in a tune. Beside a table that
//! knows the symbols by heart.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use std::collections::HashMap;
use std::time::Instant;

use divan::{Bencher, black_box};
use effort::Effort;
use fretloom_theory::{
    Chord, ChordScale, PairSound, ReadChord, Reading, ScaleChoice, TriadPair, TriadQuality,
};
use ratio::Ratios;

/// 462 symbols of every dialect; the head of the file says where they come from.
fn symbols() -> Vec<&'static str> {
    let table = include_str!("../reference/chord_symbols.tsv");
    let rows = table.lines().filter(|line| !line.starts_with('#'));
    rows.filter_map(|row| row.split('\t').next()).collect()
}

/// What a program would do that never met a new symbol: the notes of each, by its whole text.
fn by_heart(symbols: &[&'static str]) -> HashMap<&'static str, u16> {
    let notes = |symbol: &&'static str| (*symbol, symbol.parse::<Chord>().unwrap().set().bits());
    symbols.iter().map(notes).collect()
}

fn read(symbols: &[&str]) -> usize {
    symbols.iter().filter(|symbol| symbol.parse::<ReadChord>().is_ok()).count()
}

/// The least that one could ask of a tune: how many of its roots fall a fifth.
fn falling_fifths(tune: &[Chord]) -> usize {
    let falls = |pair: &&[Chord]| {
        pair[0].root().pitch_class().semitones_up_to(pair[1].root().pitch_class()) == 5
    };
    tune.windows(2).filter(falls).count()
}

fn look_up(symbols: &[&str], known: &HashMap<&str, u16>) -> usize {
    symbols.iter().filter(|symbol| known.contains_key(*symbol)).count()
}

/// Every chord over every scale that fits it.
fn grounds(symbols: &[&str]) -> Vec<ChordScale> {
    let of_chord = |symbol: &&str| {
        let chord: Chord = symbol.parse().unwrap();
        let choices = ScaleChoice::for_chord(&chord);
        // The chromatic scale, with its 366 pairs, would drown the others.
        let usual = choices.into_iter().filter(|choice| choice.scale().kind().degrees().len() < 12);
        usual
            .map(move |choice| ChordScale::over(chord.clone(), choice.scale().clone()))
            .collect::<Vec<_>>()
    };
    symbols.iter().flat_map(of_chord).collect()
}

fn ranked(grounds: &[ChordScale]) -> usize {
    grounds
        .iter()
        .map(|chord_scale| PairSound::ranked(chord_scale, TriadQuality::TERTIAN).len())
        .sum()
}

fn found(grounds: &[ChordScale]) -> usize {
    let pairs = |chord_scale: &ChordScale| {
        let (set, root) = (chord_scale.scale().set(), chord_scale.root().pitch_class());
        TriadPair::within(set, TriadQuality::TERTIAN, root).count()
    };
    grounds.iter().map(pairs).sum()
}

/// The symbols again and again, as a tune of this many chords.
fn tune(symbols: &[&str], chords: usize) -> Vec<Chord> {
    symbols.iter().cycle().take(chords).map(|symbol| symbol.parse().unwrap()).collect()
}

#[divan::bench(args = [256, 1024])]
fn read_a_tune(bencher: Bencher<'_, '_>, chords: usize) {
    let tune = tune(&symbols(), chords);
    bencher.bench(|| Reading::tune(black_box(&tune), None));
}

#[divan::bench]
fn read_462_symbols(bencher: Bencher<'_, '_>) {
    let symbols = symbols();
    bencher.bench(|| read(black_box(&symbols)));
}

#[divan::bench]
fn scales_of_462_chords(bencher: Bencher<'_, '_>) {
    let symbols = symbols();
    bencher.bench(|| grounds(black_box(&symbols)));
}

fn main() {
    divan::main();
    let symbols = symbols();
    let known = by_heart(&symbols);
    assert_eq!(read(&symbols), look_up(&symbols, &known));
    Ratios::to("a table of whole symbols", || look_up(black_box(&symbols), black_box(&known)))
        .and("reading them word by word", || read(black_box(&symbols)))
        .print("462 chord symbols");
    let start = Instant::now();
    let rounds = Effort::of_this_run().choose(200, 1);
    for _ in 0..rounds {
        black_box(read(black_box(&symbols)));
    }
    let per_second = (rounds * symbols.len()) as f64 / start.elapsed().as_secs_f64();
    println!("that is {per_second:.0} symbols a second\n");
    let tune = tune(&symbols, 1024);
    Ratios::to("its falling fifths counted", || falling_fifths(black_box(&tune)))
        .and("what each chord does in it", || Reading::tune(black_box(&tune), None).len())
        .print("a tune of 1,024 chords");
    let grounds = grounds(&symbols);
    assert_eq!(ranked(&grounds), found(&grounds));
    println!("{} chord-scales, {} pairs", grounds.len(), found(&grounds));
    Ratios::to("their pairs found", || found(black_box(&grounds)))
        .and("their pairs judged and sorted", || ranked(black_box(&grounds)))
        .print("every chord in every scale that fits it");
}
