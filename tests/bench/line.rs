//! Lines: from a pattern to fingered tab in twelve keys, beside the notes alone.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom::answer::{
    AskedChords, KeyCycle, KeyFingering, LineChords, LineQuestion, LinesAnswer, TuningAnswer,
    find_tuning,
};
use fretloom::export::text::TabText;
use fretloom::library::LoadedTunings;
use fretloom::picture::TabLook;
use fretloom_fretboard::Neck;
use fretloom_theory::{LineStyle, Meter, Spelling};
use ratio::Ratios;

/// Notes a key: eighths of eleven bars, so that twelve keys have more than a thousand.
const BARS: u32 = 11;

struct Asked {
    neck: Neck,
    tuning: TuningAnswer,
    question: LineQuestion,
}

fn asked() -> Asked {
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
    Asked { neck: Neck::new(tuning.tuning.clone()), tuning, question }
}

fn lines(asked: &Asked) -> LinesAnswer {
    let Asked { neck, tuning, question } = asked;
    let (cycle, fingering) = (KeyCycle::Fourths, KeyFingering::Anew);
    LinesAnswer::in_keys(neck, tuning.clone(), question, cycle, fingering).unwrap()
}

fn tabs(asked: &Asked) -> String {
    let lines = lines(asked);
    let tab = |line: &fretloom::answer::KeyLine| {
        let way = line.answer.ways.first().unwrap();
        TabText::new(&line.answer.tab(way), &TabLook::default()).to_string()
    };
    lines.lines.iter().map(tab).collect()
}

/// The least that anybody would do: the same walk in plain numbers, moved into twelve keys, as a list.
fn plain_numbers() -> String {
    let triads = [[5, 9, 0], [7, 11, 2]];
    let notes = triads.map(|triad| (40..=86).filter(|n| triad.contains(&(n % 12))).collect());
    let notes: [Vec<i32>; 2] = notes;
    let mut text = String::new();
    for key in [0, 5, 10, 3, 8, 1, 6, 11, 4, 9, 2, 7] {
        let (mut at, mut up, mut played) = (0_usize, true, 0);
        for group in [&[0_usize, 2, 1][..], &[2, 1]].iter().cycle().enumerate() {
            let own = &notes[group.0 % 2];
            for figure in *group.1 {
                text.push_str(&format!("{} ", own[(at + figure).min(own.len() - 1)] + key - 5));
                played += 1;
            }
            if played >= BARS * 8 {
                break;
            }
            at = if up { at + group.0 % 2 } else { at.saturating_sub(group.0 % 2) };
            up = if at + 3 >= own.len() { false } else { up || at == 0 };
        }
        text.push('\n');
    }
    text
}

#[divan::bench]
fn twelve_keys(bencher: Bencher<'_, '_>) {
    let asked = asked();
    bencher.bench(|| tabs(black_box(&asked)));
}

fn main() {
    divan::main();
    let asked = asked();
    let count: usize = lines(&asked).lines.iter().map(|line| line.answer.notes.len()).sum();
    Ratios::to("the notes in plain numbers", plain_numbers)
        .and("lines with places, fingers and strokes", || lines(black_box(&asked)))
        .and("and their tab", || tabs(black_box(&asked)))
        .print(&format!("a drill in twelve keys, {count} notes"));
}
