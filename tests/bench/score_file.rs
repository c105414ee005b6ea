//! Files of music: a thousand notes as MIDI and as MusicXML, beside the same line as JSON.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/drill.rs"]
mod drill;
#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use drill::Drill;
use fretloom::answer::LinesAnswer;
use fretloom::json;
use fretloom::score_file::WrittenScore;
use fretloom_theory::{ClickBeats, Swing};
use ratio::Ratios;

/// Eighths of so many bars are a thousand notes.
const BARS: u32 = 125;

fn lines() -> LinesAnswer {
    let Drill { neck, tuning, question } = Drill::of_bars(BARS);
    LinesAnswer::in_one_key(&neck, tuning, &question).unwrap()
}

fn written(lines: &LinesAnswer) -> WrittenScore {
    lines.written(Swing::STRAIGHT, ClickBeats::TwoAndFour).unwrap()
}

#[divan::bench]
fn midi(bencher: Bencher<'_, '_>) {
    let written = written(&lines());
    bencher.bench_local(|| black_box(&written).midi().unwrap());
}

#[divan::bench]
fn music_xml(bencher: Bencher<'_, '_>) {
    let written = written(&lines());
    bencher.bench_local(|| black_box(&written).music_xml().unwrap());
}

fn main() {
    divan::main();
    let lines = lines();
    let written = written(&lines);
    println!("{} notes", written.notes.len());
    Ratios::to("the line as JSON", || json::text(&lines))
        .and("as a MIDI file", || written.midi().unwrap())
        .and("as MusicXML", || written.music_xml().unwrap())
        .print("a line as a file");
}
