//! What is written, by hand; the order of bars in `tests/forms.rs`, mistakes in `tests/mistakes.rs`
//! and `tests/marking.rs`, laws in `tests/laws.rs`.

mod forms;
mod laws;
mod marking;
mod mistakes;

use super::*;
use crate::Bars;

fn read(text: &str) -> BarText {
    read_in(text, "4/4")
}

fn read_in(text: &str, meter: &str) -> BarText {
    BarText::read(text, meter.parse().unwrap()).unwrap_or_else(|error| panic!("{error}"))
}

/// The chords with their onsets: `0 Dm7, 3/2 G7; 12` ends after twelve quarters.
fn sounding(text: &BarText, optional: OptionalChords) -> String {
    let chorus = text.unfolded(optional);
    let changes = chorus.chords.changes().iter();
    let said: Vec<String> = changes.map(|(at, chord)| format!("{at} {chord:#}")).collect();
    format!("{}; {}", said.join(", "), chorus.end)
}

#[test]
fn chords_share_their_bar() {
    for (meter, text, expected) in [
        ("4/4", "| Dm7 G7 | Cmaj7 |", "0 Dm7, 2 G7, 4 Cmaj7; 8"),
        ("3/4", "| Dm7 G7 | Cmaj7 |", "0 Dm7, 3/2 G7, 3 Cmaj7; 6"),
        ("4/4", "| Dm7 G7 Em7 A7 |", "0 Dm7, 1 G7, 2 Em7, 3 A7; 4"),
        ("4/4", "| Dm7 G7 Em7 |", "0 Dm7, 4/3 G7, 8/3 Em7; 4"),
        ("5/4", "| Dm7 G7 |", "0 Dm7, 5/2 G7; 5"),
        ("6/8", "| Dm7 G7 |", "0 Dm7, 3/2 G7; 3"),
    ] {
        assert_eq!(sounding(&read_in(text, meter), OptionalChords::Played), expected, "{text}");
    }
}

/// A beat of 6/8, 9/8 and 12/8 is three eighths.
#[test]
fn a_stroke_is_a_beat() {
    for (meter, text, expected) in [
        ("4/4", "| G7sus4 / / G7 |", "0 G7sus4, 3 G7; 4"),
        ("4/4", "| Dm7 G7 | / / Cmaj7 / |", "0 Dm7, 2 G7, 6 Cmaj7; 8"),
        ("3/4", "| Dm7 / G7 |", "0 Dm7, 2 G7; 3"),
        ("6/8", "| Dm7 / | / G7 |", "0 Dm7, 9/2 G7; 6"),
        ("12/8", "| Dm7 / G7 / |", "0 Dm7, 3 G7; 6"),
        ("2/2", "| Dm7 / |", "0 Dm7; 4"),
        ("5/4", "| Dm7 / / G7 / |", "0 Dm7, 3 G7; 5"),
    ] {
        assert_eq!(sounding(&read_in(text, meter), OptionalChords::Played), expected, "{text}");
    }
}

#[test]
fn a_bar_is_written_once_more_with_a_sign() {
    let played = |text: &str| sounding(&read(text), OptionalChords::Played);
    assert_eq!(played("| Dm7 G7 | % | C |"), "0 Dm7, 2 G7, 4 Dm7, 6 G7, 8 C; 12");
    assert_eq!(played("| Dm7 | G7 | %% | C |"), "0 Dm7, 4 G7, 8 Dm7, 12 G7, 16 C; 20");
    assert_eq!(played("| Dm7 | G7 | %% | % |"), "0 Dm7, 4 G7, 8 Dm7, 12 G7; 20");
    assert_eq!(played("| Dm7 | % | % | % |"), "0 Dm7; 16");
    // The chord that sounds where the bar before begins is written in the bar before that.
    assert_eq!(played("| Dm7 | / / G7 / | % |"), "0 Dm7, 6 G7, 8 Dm7, 10 G7; 12");
}

#[test]
fn chords_in_brackets_may_be_left_out() {
    let text = read("| Cmaj7 (A7) | Dm7 (N.C.) G7 | (C6) | F/C (E7(b9)) |");
    let played = "0 Cmaj7, 2 A7, 4 Dm7, 16/3 N.C., 20/3 G7, 8 C6, 12 F/C, 14 E7b9; 16";
    assert_eq!(sounding(&text, OptionalChords::Played), played);
    let left_out = "0 Cmaj7, 4 Dm7, 20/3 G7, 12 F/C; 16";
    assert_eq!(sounding(&text, OptionalChords::LeftOut), left_out);
    let optional = text.unfolded(OptionalChords::Played).optional;
    let optional: Vec<String> = optional.iter().map(Quarters::to_string).collect();
    assert_eq!(optional.join(" "), "2 16/3 8 14");
    assert!(text.unfolded(OptionalChords::LeftOut).optional.is_empty());
}

/// What is typed on a command line.
#[test]
fn without_bar_lines_each_chord_has_its_bar() {
    for (text, expected) in [
        ("Dm7", "0 Dm7; 4"),
        ("Dm7 G7 Cmaj7 %", "0 Dm7, 4 G7, 8 Cmaj7; 16"),
        ("[A] Dm7 G7 [B] Cmaj7 Fine", "0 Dm7, 4 G7, 8 Cmaj7; 12"),
        ("Dm7 3/4 G7 N.C.", "0 Dm7, 4 G7, 7 N.C.; 10"),
        ("Dm7\nG7 Cmaj7", "0 Dm7, 4 G7, 8 Cmaj7; 12"),
        ("pickup=1 N.C. Dm7 G7", "0 N.C., 1 Dm7, 5 G7; 9"),
        // A stroke makes it a bar.
        ("Dm7 / G7 /", "0 Dm7, 2 G7; 4"),
        // And one bar line means that they all are there.
        ("Dm7 G7 | Cmaj7", "0 Dm7, 2 G7, 4 Cmaj7; 8"),
    ] {
        assert_eq!(sounding(&read(text), OptionalChords::Played), expected, "{text}");
    }
}

#[test]
fn bars_may_be_laid_out_as_players_do() {
    let expected = "0 Dm7, 4 G7, 8 Cmaj7, 16 Fm7; 20";
    for text in [
        "| Dm7 | G7 | Cmaj7 | % | Fm7 |",
        "|Dm7|G7|Cmaj7|%|Fm7|",
        "Dm7 | G7\nCmaj7 | %\nFm7",
        "| Dm7 | G7 |\n| Cmaj7 | % |\r\n\r\n|Fm7||",
        "# a comment\n[A] | Dm7 | G7 ||\n  # another\n[B]\n| Cmaj7 | % |\n| Fm7 |\n# the last",
        "||\tDm7 |  G7 | Cmaj7 | %\n|| Fm7 ||",
    ] {
        assert_eq!(sounding(&read(text), OptionalChords::Played), expected, "{text}");
    }
}

#[test]
fn meters_change_at_bar_lines() {
    let text = read("| Dm7 | 3/4 G7 C | % | 6/8 [B] Fm7 / | 4/4 C |");
    assert_eq!(
        sounding(&text, OptionalChords::Played),
        "0 Dm7, 4 G7, 11/2 C, 7 G7, 17/2 C, 10 Fm7, 13 C; 17"
    );
    let bars = text.unfolded(OptionalChords::Played).bars;
    let meters: Vec<String> =
        (0..6).map(|index| bars.bar(index).unwrap().meter.to_string()).collect();
    assert_eq!(meters, ["4/4", "3/4", "3/4", "6/8", "4/4", "4/4"]);
}

/// A pick-up is bar 0, and its beat the last of a bar.
#[test]
fn a_pick_up_comes_before_the_first_bar() {
    for (meter, text, expected, beat) in [
        ("4/4", "pickup=1 | G7 | Cmaj7 |", "0 G7, 1 Cmaj7; 5", 4),
        ("4/4", "pickup=3/2 | G7 | Cmaj7 |", "0 G7, 3/2 Cmaj7; 11/2", 3),
        ("6/8", "pickup=1 | G7 | Cmaj7 |", "0 G7, 3/2 Cmaj7; 9/2", 2),
        ("4/4", "pickup=2 | 3/4 Dm7 / | Cmaj7 |", "0 Dm7, 2 Cmaj7; 5", 2),
        ("4/4", "pickup=2 | Dm7 G7 | Cmaj7 |", "0 Dm7, 1 G7, 2 Cmaj7; 6", 3),
    ] {
        let text = read_in(text, meter);
        assert_eq!(sounding(&text, OptionalChords::Played), expected, "{text}");
        let bars = text.unfolded(OptionalChords::Played).bars;
        let first = bars.at(Quarters::ZERO).unwrap();
        assert_eq!((first.bar.label.to_string().as_str(), first.beat), ("0", beat), "{text}");
        assert_eq!(bars.bar(1).unwrap().label.to_string(), "1", "{text}");
    }
}

#[test]
fn after_the_end_whole_bars_go_on() {
    let bars = read("pickup=1 | G7 |").unfolded(OptionalChords::Played).bars;
    assert_eq!(bars.bar(1).unwrap().length, Quarters::whole(4));
    let bars = read("Dm7").unfolded(OptionalChords::Played).bars;
    assert_eq!(bars, Bars::of(Meter::COMMON));
    let bars = read("| Dm7 | 3/4 G7 |").unfolded(OptionalChords::Played).bars;
    assert_eq!(bars.bar(2).unwrap().length, Quarters::whole(3));
}

/// Written by hand: four bars in a line, and a new one for each section.
#[test]
fn what_is_read_prints_in_one_way() {
    for (text, print) in [
        ("Dm7", "| Dm7 |"),
        ("|Dm7 G7||Cmaj7", "| Dm7 G7 | Cmaj7 |"),
        ("[A] |: D-7 / G7 / :|3|:CΔ7|%:|", "|: [A] Dm7 / G7 / :|3 |: Cmaj7 | % :|"),
        ("| C | C | C | C | C |", "| C | C | C | C |\n| C |"),
        ("| C | C | %% | C |", "| C | C | %% |\n| C |"),
        ("| C | [B] 3/4 F D.C. |", "| C |\n| [B] 3/4 F D.C. |"),
        ("pickup=1|(G7)|:C:|:F:|4", "pickup=1 | (G7) |: C :|: F :|4"),
        ("# one\n#two\nC\n#three", "# one\n# two\n| C |\n# three"),
        (
            "|: Segno C ToCoda :| F D.S.alCoda | Coda Bb",
            "|: Segno C ToCoda :| F D.S.alCoda | Coda Bb |",
        ),
        ("|: C | 1. 2. F :|3. Bb|", "|: C | 1. 2. F :| 3. Bb |"),
    ] {
        match BarText::read(text, Meter::COMMON) {
            Ok(read) => assert_eq!(format!("{read:#}"), print, "{text}"),
            Err(error) => panic!("{text}: {error}"),
        }
    }
}
