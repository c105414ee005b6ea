//! The order in which bars are heard. Each is worked out by hand, as a band would play it; that a
//! repeat is not taken again after going back is common practice, no source.

use super::*;

/// The written bars that are heard, counted from 1, `4-6` for those in between too.
fn heard(text: &str) -> String {
    let heard = read(text).unfolded(OptionalChords::Played).heard;
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for bar in heard.iter().map(|bar| bar.written + 1) {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == bar => *last = bar,
            _ => runs.push((bar, bar)),
        }
    }
    let said: Vec<String> = runs
        .into_iter()
        .map(|(from, to)| if from == to { format!("{from}") } else { format!("{from}-{to}") })
        .collect();
    said.join(" ")
}

#[test]
fn repeats_and_endings() {
    for (text, expected) in [
        ("|: C | F :| G |", "1-2 1-3"),
        ("| C | F :| G |", "1-2 1-3"),
        ("|: C | F :|3 G |", "1-2 1-2 1-3"),
        ("|: C :|: F :|4", "1 1-2 2 2 2"),
        ("| C | F :| G | C :|", "1-2 1-4 3-4"),
        ("| C |: F | G :| C |", "1-3 2-4"),
        ("|: C | 1. F | G :| 2. Bb | C |", "1-3 1 4-5"),
        ("| C | 1. F :| 2. Bb | C |", "1-2 1 3-4"),
        ("|: C | 1. 2. F :| 3. Bb |", "1-2 1-2 1 3"),
        ("|: C | 1. F :| 2. G :| 3. Bb |: C :|", "1-2 1 3 1 4-5 5"),
        ("|: 1. F :| 2. G | C |", "1-3"),
        ("pickup=1 | N.C. | C | F :| G |", "1-3 2-4"),
        ("pickup=1 |: G | C :|", "1-2 1-2"),
    ] {
        assert_eq!(heard(text), expected, "{text}");
    }
}

#[test]
fn going_back() {
    for (text, expected) in [
        ("| C | F Fine | G | A D.C.alFine |", "1-4 1-2"),
        ("| C | F Fine | G | A | D.C. |", "1-4 1-2"),
        ("| C | F | G D.C. |", "1-3 1-3"),
        ("| C | Segno F | G | A D.S. | B |", "1-4 2-5"),
        ("| C | Segno F ToCoda | G | A D.S.alCoda | Coda B | E |", "1-4 2 5-6"),
        ("| C ToCoda | F | G D.C.alCoda | Coda B | E |", "1-3 1 4-5"),
        ("| C | Segno F | G Fine | A D.S.alFine |", "1-4 2-3"),
        // What has been repeated is heard once after going back, with the last ending.
        ("|: C | 1. F :| 2. G Fine | A D.C.alFine |", "1-2 1 3-4 1 3"),
        ("|: C :|3 F Fine | G D.C.alFine |", "1 1 1-3 1-2"),
        // The jump waits for the last time through.
        ("|: C ToCoda | F D.C.alCoda :| Coda G |", "1-2 1-2 1 3"),
        ("|: C | F D.C. :| G |", "1-2 1-2 1-3"),
        ("|: C D.C. | F :| G |", "1-2 1 1-3"),
        ("|: C | 1. F :| 2. G D.C. |", "1-2 1 3 1 3"),
        // In the coda repeats are new.
        ("| C ToCoda | F D.C.alCoda | Coda |: G :|3 A |", "1-2 1 3 3 3-4"),
        // A jump in the coda.
        ("Segno C ToCoda | F D.S.alCoda | Coda G D.C. |", "1-2 1 3 1-3"),
        ("pickup=1 | N.C. | C | F D.C. |", "1-3 2-3"),
    ] {
        assert_eq!(heard(text), expected, "{text}");
    }
}

/// Forms that players count in their sleep.
#[test]
fn forms_have_as_many_bars_as_bands_play() {
    let blues = "| C7 | F7 | C7 | % | F7 | % | C7 | A7 | Dm7 | G7 | C7 A7 | Dm7 G7 |";
    let four = "| C | A7 | Dm7 | G7 |\n";
    let aaba_in_endings = "[A] |: C | A7 | Dm7 | G7 | Em7 | A7 |1. Dm7 | G7 :|2. Dm7 G7 | C |
        [B] | Fm7 | Bb7 | Eb | % | Am7 | D7 | Dm7 | G7 |
        [A] | C | A7 | Dm7 | G7 | Em7 | A7 | Dm7 G7 | C |";
    let aaba_d_c = "[A] |: C | A7 | Dm7 | G7 | Em7 | A7 |1. Dm7 | G7 :|2. Dm7 G7 | C Fine |
        [B] | Fm7 | Bb7 | Eb | % | Am7 | D7 | Dm7 | G7 D.C.alFine |";
    let abac = format!(
        "[A] |: {four} {four} |1. Dm7 | % | G7 | % | Em7 | % | A7 | % :|
        2. Fm7 | % | C | % | Dm7 | G7 | C | % |"
    );
    for (text, bars) in [
        (blues, 12),
        (&format!("|: {blues} :|"), 24),
        (aaba_in_endings, 32),
        (aaba_d_c, 32),
        (&abac, 32),
    ] {
        let chorus = read(text).unfolded(OptionalChords::Played);
        assert_eq!(chorus.heard.len(), bars, "{text}");
        assert_eq!(chorus.end, Quarters::whole(4 * u32::try_from(bars).unwrap()), "{text}");
    }
    let sections: Vec<String> = read(aaba_d_c)
        .unfolded(OptionalChords::Played)
        .heard
        .iter()
        .step_by(8)
        .map(|bar| bar.section.clone().unwrap().into())
        .collect();
    assert_eq!(sections, ["A", "A", "B", "A"]);
}

/// Two bars of 3/4 in the middle, heard twice: 4 + 3 + 3 + 4.
#[test]
fn bars_keep_their_meters_when_they_come_again() {
    let chorus = read("|: C | 3/4 F | G | 4/4 C :|").unfolded(OptionalChords::Played);
    let lengths: Vec<String> =
        (0..8).map(|index| chorus.bars.bar(index).unwrap().length.to_string()).collect();
    assert_eq!(lengths, ["4", "3", "3", "4", "4", "3", "3", "4"]);
    let labels: Vec<String> =
        (0..8).map(|index| chorus.bars.bar(index).unwrap().label.to_string()).collect();
    assert_eq!(labels, ["1", "2", "3", "4", "5", "6", "7", "8"]);
    let from: Vec<String> = chorus.heard.iter().map(|bar| bar.from.to_string()).collect();
    assert_eq!(from, ["0", "4", "7", "10", "14", "18", "21", "24"]);
}
