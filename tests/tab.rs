//! Tablature for the music stand: what is shown can be read again, and ten tabs that a person has
//! looked at.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop")]

#[path = "tab/by_hand.rs"]
mod by_hand;
#[path = "tab/made_up.rs"]
mod made_up;
#[path = "tab/notation.rs"]
mod notation;
#[path = "tab/reader.rs"]
mod reader;
#[path = "tab/shown.rs"]
mod shown;

use fretloom::export::text::TabText;
use fretloom::picture::{Tab, TabBelow, TabLook, TabMusic, TimesFrom};
use fretloom_theory::TempoMap;
use made_up::{Dice, MadeUp, line};

fn written(line: &MadeUp, look: &TabLook) -> String {
    let music = TabMusic {
        title: Some("A made-up line"),
        bars: &line.bars,
        tempi: &TempoMap::default(),
        chords: &line.chords,
        end: line.end,
        times: TimesFrom::Writing,
    };
    let tab = Tab::new(&music, &line.tuning, &line.events);
    TabText::new(&tab, look).to_string()
}

/// A thousand lines are read again note by note, at many widths and with all that may be shown.
#[test]
fn every_note_is_found_again() {
    for seed in 0..1000 {
        let line = line(seed);
        let mut dice = Dice::new(seed + 5000);
        let look = TabLook {
            width: [80, 80, 80, 40, 24, 120][dice.throw(6) as usize],
            below: [TabBelow::Nothing, TabBelow::Degrees][dice.throw(2) as usize],
            triads: dice.throw(2) == 0,
            ..TabLook::default()
        };
        let text = written(&line, &look);
        let read = reader::read(&text);
        assert_eq!(read.len(), line.expected.len(), "line {seed}\n{text}");
        for (found, expected) in read.iter().zip(&line.expected) {
            assert_eq!(found, expected, "line {seed}\n{text}");
        }
    }
}

/// No line is wider than it may be, unless a single moment is.
#[test]
fn lines_keep_to_their_width() {
    for seed in 0..200 {
        for width in [40, 80, 132] {
            let text = written(&line(seed), &TabLook { width, ..TabLook::default() });
            let systems = text.lines().filter(|line| line.contains('|'));
            for line in systems {
                assert!(line.chars().count() <= width, "{width}: {line}");
            }
        }
    }
}
