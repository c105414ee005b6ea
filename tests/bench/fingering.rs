//! Fingering a line, from a hundred notes to a hundred thousand.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use std::fs;
use std::hint::black_box;
use std::time::{Duration, Instant};

use divan::Bencher;
use effort::Effort;
use fretloom_fretboard::{FingeringQuery, LineNote, Neck, Tuning};
use fretloom_theory::Pitch;
use ratio::Ratios;

fn guitar() -> Neck {
    Neck::new(Tuning::read("EADGBE").unwrap())
}

/// A line that wanders over the whole guitar by small steps, five notes a second. The same every
/// time.
fn line(notes: usize) -> Vec<LineNote> {
    let mut seed = 12_345_u64;
    let mut midi = 60_i64;
    let mut wander = || {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        midi = (midi + i64::try_from(seed % 9).unwrap() - 4).clamp(42, 82);
        Pitch::from_midi(u8::try_from(midi).unwrap()).unwrap()
    };
    (0..notes).map(|i| LineNote::new(i as f64 * 0.2, 0.2, wander()).unwrap()).collect()
}

/// The least that anybody would do: the way over strings and frets on which frets and strings
/// differ least from note to note. No fingers, no hand, no time.
fn from_note_to_note(line: &[LineNote]) -> f64 {
    const OPEN: [i32; 6] = [64, 59, 55, 50, 45, 40];
    let places = |note: &LineNote| {
        let midi = i32::from(note.pitch().midi());
        let frets = (0..6).map(|string| (string, midi - OPEN[string as usize]));
        frets.filter(|(_, fret)| (0..=22).contains(fret)).collect::<Vec<(i32, i32)>>()
    };
    let mut back: Vec<Vec<usize>> = Vec::new();
    let mut so_far = vec![0.0; places(&line[0]).len()];
    for two in line.windows(2) {
        let before = places(&two[0]);
        let step = |(string, fret): &(i32, i32)| {
            let costs = before.iter().zip(&so_far).map(|((other_string, other_fret), cost)| {
                let far = f64::from((fret - other_fret).abs());
                cost + far + 0.5 * f64::from((string - other_string).abs())
            });
            costs.enumerate().min_by(|a, b| a.1.total_cmp(&b.1)).unwrap()
        };
        let best: Vec<(usize, f64)> = places(&two[1]).iter().map(step).collect();
        back.push(best.iter().map(|(from, _)| *from).collect());
        so_far = best.into_iter().map(|(_, cost)| cost).collect();
    }
    black_box(back);
    so_far.into_iter().fold(f64::INFINITY, f64::min)
}

fn best(neck: &Neck, line: &[LineNote]) -> f64 {
    FingeringQuery::default().best(neck, line).unwrap().cost()
}

fn ways(neck: &Neck, line: &[LineNote]) -> usize {
    FingeringQuery::default().alternatives(neck, line, 8).unwrap().fingerings.len()
}

fn cheapest(neck: &Neck, line: &[LineNote]) -> usize {
    FingeringQuery::default().cheapest(neck, line, 8).unwrap().len()
}

#[divan::bench]
fn thousand_notes(bencher: Bencher<'_, '_>) {
    let (neck, line) = (guitar(), line(1000));
    bencher.bench(|| best(black_box(&neck), black_box(&line)));
}

#[divan::bench]
fn eight_ways_of_thousand_notes(bencher: Bencher<'_, '_>) {
    let (neck, line) = (guitar(), line(1000));
    bencher.bench(|| ways(black_box(&neck), black_box(&line)));
}

#[divan::bench]
fn eight_cheapest_of_thousand_notes(bencher: Bencher<'_, '_>) {
    let (neck, line) = (guitar(), line(1000));
    bencher.bench(|| cheapest(black_box(&neck), black_box(&line)));
}

/// How much memory the process has had at most since it was last asked, in KiB (Linux).
fn peak_kib() -> Option<u64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    peak.trim().strip_suffix(" kB")?.trim().parse().ok()
}

/// Forgets the peak, so that the next one is of what comes next.
fn forget_peak() -> Option<u64> {
    fs::write("/proc/self/clear_refs", "5").ok()?;
    peak_kib()
}

fn timed(work: impl FnOnce() -> f64) -> Duration {
    let start = Instant::now();
    black_box(work());
    start.elapsed()
}

/// Time and memory for each note, which should not grow with the line.
fn print_growth() {
    let neck = guitar();
    let heading = ["plain", "ours", "ratio", "memory"];
    println!(
        "\nfor each note of a line{:>13}{:>12}{:>8}{:>14}",
        heading[0], heading[1], heading[2], heading[3]
    );
    let measured: &[(usize, usize)] = &[(100, 200), (1_000, 40), (10_000, 8), (100_000, 3)];
    for &(notes, turns) in Effort::of_this_run().choose(measured, &[(100, 1), (1_000, 1)]) {
        let line = line(notes);
        let before = forget_peak();
        black_box(best(&neck, &line));
        let memory = before.zip(peak_kib()).map(|(before, peak)| peak.saturating_sub(before));
        let mut plain = Duration::MAX;
        let mut ours = Duration::MAX;
        for _ in 0..turns {
            plain = plain.min(timed(|| from_note_to_note(&line)));
            ours = ours.min(timed(|| best(&neck, &line)));
        }
        let each = |time: Duration| time.as_secs_f64() * 1e6 / notes as f64;
        let memory = memory
            .map_or_else(|| "–".to_owned(), |kib| format!("{:.2} KiB", kib as f64 / notes as f64));
        println!(
            "  {notes:>7} notes {:>17.2} µs {:>8.2} µs {:>7.1} {memory:>13}",
            each(plain),
            each(ours),
            each(ours) / each(plain)
        );
    }
}

fn main() {
    divan::main();
    let (neck, line) = (guitar(), line(1000));
    Ratios::to("from note to note, no hand", || from_note_to_note(black_box(&line)))
        .and("the best fingering", || best(black_box(&neck), &line))
        .and("eight that differ musically", || ways(black_box(&neck), &line))
        .and("the eight cheapest", || cheapest(black_box(&neck), &line))
        .print("fingering 1,000 notes on six strings");
    print_growth();
}
