//! Tablature: from notes with their places to text, beside fret numbers on dashes.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom::export::text::TabText;
use fretloom::picture::{Tab, TabBelow, TabEvent, TabLook, TabMusic, TimesFrom};
use fretloom_fretboard::{Finger, Fret, HandPosition, StringNumber, Tuning};
use fretloom_theory::{Bars, ChordSymbol, Meter, Quarters, Stroke, TempoMap, Timeline, WhichTriad};
use ratio::Ratios;

/// A line with a chord for each bar and all that can be known of each note.
struct Line {
    tuning: Tuning,
    bars: Bars,
    chords: Timeline<ChordSymbol>,
    events: Vec<TabEvent>,
}

/// Two beats of eighths and two of triplets in each bar of ten notes.
fn line(notes: u32) -> Line {
    let third = Quarters::new(1, 3).unwrap();
    let mut onset = Quarters::ZERO;
    let event = |index: u32| {
        let length = if index % 10 < 4 { Quarters::EIGHTH } else { third };
        let string = StringNumber::new((index % 6) as u8 + 1).unwrap();
        let fret = Fret::new((index * 7 % 15) as u8).unwrap();
        let event = TabEvent {
            finger: Some(Finger::Second),
            position: HandPosition::new((index / 6 % 9 + 1) as u8),
            degree: Some("b3".parse().unwrap()),
            triad: Some(WhichTriad::BOTH[(index / 3 % 2) as usize]),
            accent: index.is_multiple_of(5),
            slurred_to_next: index.is_multiple_of(4),
            stroke: Some(if index.is_multiple_of(2) { Stroke::Down } else { Stroke::Up }),
            ..TabEvent::new(onset, length, string, fret)
        };
        onset = onset.checked_add(length).unwrap();
        event
    };
    let events = (0..notes).map(event).collect();
    let chord = |bar: u32| {
        (
            Quarters::whole(4 * bar),
            ChordSymbol::read(if bar.is_multiple_of(2) { "Dm7" } else { "G13b9" }),
        )
    };
    Line {
        tuning: Tuning::read("E A D G B E").unwrap(),
        bars: Bars::of(Meter::COMMON),
        chords: Timeline::of((0..notes / 10).map(chord)),
        events,
    }
}

fn text(line: &Line) -> String {
    let music = TabMusic {
        title: None,
        bars: &line.bars,
        tempi: &TempoMap::default(),
        chords: &line.chords,
        end: Quarters::ZERO,
        times: TimesFrom::Writing,
    };
    let look = TabLook { below: TabBelow::Degrees, triads: true, ..TabLook::default() };
    TabText::new(&Tab::new(&music, &line.tuning, &line.events), &look).to_string()
}

/// The least that anybody would do: numbers on dashes, broken where a line is full.
fn numbers_on_dashes(line: &Line) -> String {
    let mut text = String::new();
    for block in line.events.chunks(25) {
        for string in 1..=6 {
            for event in block {
                if event.string.number() == string {
                    text.push_str(&format!("{:->2}-", event.fret.number()));
                } else {
                    text.push_str("---");
                }
            }
            text.push('\n');
        }
        text.push('\n');
    }
    text
}

#[divan::bench(args = [100, 1000, 10_000])]
fn tab(bencher: Bencher<'_, '_>, notes: u32) {
    let line = line(notes);
    bencher.bench(|| text(black_box(&line)));
}

fn main() {
    divan::main();
    let line = line(1000);
    Ratios::to("fret numbers on dashes", || numbers_on_dashes(black_box(&line)))
        .and("counted, with chords, fingers, degrees", || text(black_box(&line)))
        .print("the tab of 1,000 notes");
}
