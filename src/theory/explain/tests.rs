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
    // A stack that begins on the fourth of its chord is no arpeggio of it.
    let on_the_fourth = said("Cm7: F4 A4 C5 Eb5 G5 Bb5 G5 Eb5");
    assert!(on_the_fourth[0].starts_with("Eb & F over Cm7: F in root position up, Eb"));
    assert_eq!(
        said("Dm7: D4 F4 A4 G4 E4 C4 F4 D4"),
        ["Dm & C over Dm7: Dm in root position up, C in root position down, two notes of Dm."]
    );
}

/// The third note before the bar line begins the next chord's pair: G7's F & G ends where E G C begins.
#[test]
fn a_group_speaks_the_next_chord_early() {
    assert_eq!(
        said("G7: A4 F4 C5 B4 G4 D4 - E4 | Cmaj7#11: G4 C5 A4 F#4 D4 C4 E4 G4")[1],
        "C & D over Cmaj7#11: C in first inversion up, D in root position down, C in root \
         position up; C speaks half a beat early."
    );
    let two_beats = said("Dm7: D4 E4 G4 F4 Bb4 G4 Eb4 Bb4 | Dbmaj7: Ab4 F4 Db4 Eb4 G4 Bb4 Db5 -");
    assert!(two_beats[1].contains("; Eb speaks two beats early"), "{two_beats:?}");
}

#[test]
fn a_group_hangs_over_the_next_chord() {
    let said = said("Dm7: F4 A4 C5 G4 B4 D5 - C5 | Dbmaj7: A4 F4 - - Ab4 F4 Db4 -");
    assert_eq!(
        said[0],
        "F & G over Dm7: F in root position up, G in root position up, F in root position down; F \
         hangs over by a beat; lands on the 5th of Dbmaj7 by a leap."
    );
}

#[test]
fn a_group_that_crosses_the_bar_line_under_one_pair_stands_where_it_begins() {
    let (score, part) = score("Dm7: F4 A4 C5 G4 B4 D5 F4 A4 | C5 B4 D5 G4 A4 F4 C4 F4");
    let bars = Explanation::of(&score, &part).bars;
    assert_eq!(bars[0].groups[2].notes, [6, 7, 8]);
    assert!(
        bars.iter().flat_map(|bar| &bar.groups).all(|group| group.early == GroupTiming::OnTime)
    );
    assert_eq!(bars[0].pair, bars[1].pair);
}

/// One triad a bar is a pair under one chord, and two arpeggios under two.
#[test]
fn a_bar_may_lean_on_its_neighbour() {
    let one_chord = said("Dm7: F4 A4 C5 F5 C5 A4 F4 C4 | G4 B4 D5 G5 D5 B4 G4 D4");
    assert!(one_chord.iter().all(|bar| bar.starts_with("F & G over Dm7")), "{one_chord:?}");
    let two_chords = said("Fmaj7: F4 A4 C5 F5 C5 A4 F4 C4 | G7: G4 B4 D5 G5 D5 B4 G4 D4");
    assert!(two_chords.iter().all(|bar| bar.starts_with("No pair")), "{two_chords:?}");
}

/// F A C leads by half steps into G: both notes enclose it. E leads by a step up to F.
#[test]
fn free_notes_lead_into_the_pair() {
    assert_eq!(
        said("Dm7: F4 A4 C5 Ab4 F#4 G4 B4 D5")[0],
        "F & G over Dm7: F in root position up, G in root position up; Ab and Gb enclose G."
    );
    // A leap away from the pair is no approach, so nothing is explained.
    assert!(said("Dm7: F4 A4 C5 Eb5 G4 B4 D5 Ab4")[0].starts_with("No pair"));
    // Three of eight are too many.
    assert!(said("Dm7: F4 E4 F4 Bb4 A4 C5 G4 B4")[0].starts_with("No pair"));
}

/// F♯ altered is F♯ G A B♭ C D E: of the three names it spells B♭ D F♯.
#[test]
fn augmented_triads_are_named_by_the_scale() {
    let said = said("F#7alt: C4 E4 G4 D4 F#4 Bb4 G4 E4");
    assert!(said[0].starts_with("Bb+ & C over F#7alt: C in root position up, Bb+ up"), "{said:?}");
}

/// Every chord is fitted by the chromatic scale, which holds every pair: none is a pair for it.
#[test]
fn a_pair_outside_the_usual_scales_needs_a_clean_bar() {
    let clean = said("Cmaj7: Gb4 Bb4 Db5 Ab4 C5 Eb5 Db5 Bb4");
    assert!(clean[0].starts_with("F# & G# over Cmaj7"), "{clean:?}");
    let led = said("Cmaj7: Gb4 Bb4 Db5 G4 Ab4 C5 Eb5 Db5");
    assert!(led[0].starts_with("No pair over Cmaj7"), "{led:?}");
}

#[test]
fn without_chords_pairs_are_found_and_named() {
    assert_eq!(
        said("F4 A4 C5 G4 B4 D5 A4 F4"),
        ["F & G: F in root position up, G in root position up, two notes of F."]
    );
    assert_eq!(said("Hx: F4 - - - - - - -"), ["No pair over Hx: a single note."]);
    assert_eq!(
        said("N.C.: - - - - | Dm7: F4"),
        ["No note begins without a chord.", "No pair over Dm7: a single note.",]
    );
}

#[test]
fn no_notes_are_no_trouble() {
    let explanation = Explanation::of(&Score::default(), &Part::new([]));
    assert_eq!(explanation.bars.len(), 1);
    assert_eq!(explanation.bars[0].movement, Some(Movement::Rests));
}

#[test]
fn where_a_line_lands_is_said_by_degree_and_step() {
    let (score, part) = score("G7: B4 D5 G4 F4 A4 C5 F4 D4 | Cm6: Eb4 - - -");
    let landing = Explanation::of(&score, &part).bars[0].landing.clone().unwrap();
    assert_eq!(format!("{landing:#}"), "3 of Cm6 by a half step");
    assert_eq!((landing.note, landing.degree.to_string()), (8, "♭3".to_owned()));
}
