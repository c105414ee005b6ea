//! Files of music: a thousand notes as MIDI and as MusicXML, beside the same line as JSON.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom::answer::{AskedChords, LineChords, LineQuestion, LinesAnswer, find_tuning};
use fretloom::json;
use fretloom::library::LoadedTunings;
use fretloom::score_file::WrittenScore;
use fretloom_fretboard::Neck;
use fretloom_theory::{ClickBeats, LineStyle, Meter, Spelling, Swing};
use ratio::Ratios;

/// Eighths of so many bars are a thousand notes.
const BARS: u32 = 125;

fn lines() -> LinesAnswer {
    let tuning = find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap();
    let asked = AskedChords {
        text: "Dm7",
        meter: Meter::COMMON,
        bars: Some(BARS),
        scales: None,
        pairs: Some("F & G"),
        spelling: Spelling::Plain,
        own: &[],
    };
    let question = LineQuestion {
        style: LineStyle::Exercise,
        pattern: Some("132 32".parse().unwrap()),
        ..LineQuestion::over(LineChords::read(&asked).unwrap())
    };
    LinesAnswer::in_one_key(&Neck::new(tuning.tuning.clone()), tuning, &question).unwrap()
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
