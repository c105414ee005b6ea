//! Lines: from a pattern to fingered tab in twelve keys, beside the notes alone.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/drill.rs"]
mod drill;
#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use drill::Drill;
use fretloom::answer::{KeyCycle, KeyFingering, LinesAnswer};
use fretloom::export::text::TabText;
use fretloom::picture::TabLook;
use ratio::Ratios;

/// Notes a key: eighths of eleven bars, so that twelve keys have more than a thousand.
const BARS: u32 = 11;

fn lines(drill: &Drill) -> LinesAnswer {
    let Drill { neck, tuning, question } = drill;
    let (cycle, fingering) = (KeyCycle::Fourths, KeyFingering::Anew);
    LinesAnswer::in_keys(neck, tuning.clone(), question, cycle, fingering).unwrap()
}

fn tabs(drill: &Drill) -> String {
    let lines = lines(drill);
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
    let drill = Drill::of_bars(BARS);
    bencher.bench(|| tabs(black_box(&drill)));
}

fn main() {
    divan::main();
    let drill = Drill::of_bars(BARS);
    let count: usize = lines(&drill).lines.iter().map(|line| line.answer.notes.len()).sum();
    Ratios::to("the notes in plain numbers", plain_numbers)
        .and("lines with places, fingers and strokes", || lines(black_box(&drill)))
        .and("and their tab", || tabs(black_box(&drill)))
        .print(&format!("a drill in twelve keys, {count} notes"));
}
