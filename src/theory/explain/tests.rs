//! Readings of lines as a teacher would give them, worked out by hand.

use super::*;
use crate::{ChordSymbol, Note, Spelling, Timeline};

/// A line in 4/4: bars between `|`, notes as eighths, `-` a rest, `_` holding the note before; each
/// bar as `Dm7: F4 A4 …`, without a chord where it goes on.
fn score(bars: &str) -> (Score, Part) {
    let mut notes: Vec<(u32, u32, &str)> = Vec::new();
    let mut chords = Vec::new();
    for (bar, text) in bars.split('|').enumerate() {
        let (symbol, line) = text.split_once(':').unwrap_or(("", text));
        let from = bar as u32 * 8;
        if !symbol.trim().is_empty() {
            chords.push((eighths(from), ChordSymbol::read(symbol.trim())));
        }
        for (at, word) in line.split_whitespace().enumerate() {
            match word {
                "-" => {}
                "_" => notes.last_mut().unwrap().1 += 1,
                pitch => notes.push((from + at as u32, 1, pitch)),
            }
        }
    }
    let note = |(onset, length, pitch): (u32, u32, &str)| {
        Note::new(eighths(onset), eighths(length), pitch.parse().unwrap()).unwrap()
    };
    let part = Part::new(notes.into_iter().map(note));
    (Score { chords: Timeline::of(chords), ..Score::default() }, part)
}

fn eighths(count: u32) -> Quarters {
    Quarters::EIGHTH.times(count).unwrap()
}

/// The sentence of each bar, in ASCII.
fn said(bars: &str) -> Vec<String> {
    let (score, part) = score(bars);
    let explanation = Explanation::of(&score, &part);
    explanation.bars.iter().map(|bar| format!("{:#}", bar.why(Spelling::Plain))).collect()
}

#[test]
fn groups_approaches_and_landing_are_told() {
    assert_eq!(
        said("Dm7: F3 A3 C4 Bb3 B3 D4 G4 F4 | Cm6: Eb4"),
        [
            "F & G over Dm7: F in root position up, G in first inversion up, one note of F; Bb a \
             chromatic note into B; lands on the 3rd of Cm6 by a whole step.",
            "No pair over Cm6: a single note.",
        ]
    );
}

/// common practice, no source: what has no second triad beside the first is no line of a pair.
#[test]
fn scales_thirds_arpeggios_and_chromatic_lines_are_no_pairs() {
    for (line, says) in [
        ("D4 E4 F4 G4 A4 B4 C5 D5", "a scale run in D Dorian"),
        ("D4 F4 E4 G4 F4 A4 G4 B4", "broken thirds in D Dorian"),
        ("D4 F4 A4 C5 D5 C5 A4 F4", "an arpeggio"),
        ("D4 Eb4 E4 F4 Gb4 G4 Ab4 A4", "a chromatic line"),
        ("D4 F4 A4 D5 A4 F4 D4 A3", "nothing but Dm"),
        ("D4 F4 G4 C5 A4 D5 G4 C4", "a pentatonic line"),
        ("D4 _ _ _ D4 _ _ _", "a single note"),
    ] {
        assert_eq!(said(&format!("Dm7: {line}")), [format!("No pair over Dm7: {says}.")], "{line}");
    }
}

/// Thirds on top of one another from the root are an arpeggio first; turned, they are a pair.
#[test]
fn an_arpeggio_up_to_the_eleventh_could_also_be_two_triads() {
    assert_eq!(
        said("Dm7: D4 F4 A4 C5 E5 G5 E5 C5"),
        ["No pair over Dm7: an arpeggio; it could also be Dm & C."]
    );
    assert_eq!(
        said("Dm7: D4 F4 A4 G4 E4 C4 F4 D4"),
        ["Dm & C over Dm7: Dm in root position up, C in root position down, two notes of Dm."]
    );
}
