//! What is said of bars that cannot be read: the place and what was expected, word for word.

use super::*;

/// Text, place (line if there are several, character), what was expected.
#[rustfmt::skip]
const MISTAKES: &[(&str, (usize, usize), &str)] = &[
    // Words.
    ("| Dm7 | G7x | Cmaj7 |", (0, 11), "a quality (m, maj, dim, +, sus), a number, an alteration such as b9, add, no, alt, or /bass"),
    ("| Dm7 |\n| G7 | H7 |", (2, 8), "a note letter, A to G"),
    ("| Dm7 | # so\n| G7 |", (1, 9), "a comment on a line of its own that begins with #"),
    ("|: Dm7:|x3", (0, 9), "a note letter, A to G"),
    ("| Dm7 | (G7x) |", (0, 12), "a quality (m, maj, dim, +, sus), a number, an alteration such as b9, add, no, alt, or /bass"),
    ("| (Dm7 G7) |", (0, 3), "an optional chord in brackets of its own, as in (G7)"),
    ("| Dm7 G7) |", (0, 7), "an optional chord in brackets of its own, as in (G7)"),
    ("| D.C. al Coda |", (0, 3), "a chord before D.C."),
    ("| C D.C. al Coda |", (0, 10), "D.C.alCoda and its like in one word"),
    ("| C To Coda |", (0, 5), "ToCoda in one word"),
    ("| segno C |", (0, 3), "Segno"),
    ("| C DC |", (0, 5), "D.C."),
    ("| C ds.alcoda |", (0, 5), "D.S.alCoda"),
    ("| [A C |", (0, 3), "a section's name in brackets, as in [A]"),
    ("| [] C |", (0, 3), "a section's name in brackets, as in [A]"),
    ("| 5/3 C |", (0, 3), "a chord, an ending as in 1. or a meter as in 3/4"),
    ("| 0. C |", (0, 3), "a chord, an ending as in 1. or a meter as in 3/4"),
    ("| 12 C |", (0, 3), "a chord, an ending as in 1. or a meter as in 3/4"),
    ("pickup=0 | C |", (0, 1), "a number of beats after pickup=, as in pickup=1 or pickup=1/2"),
    ("pickup=one | C |", (0, 1), "a number of beats after pickup=, as in pickup=1 or pickup=1/2"),
    ("pickup 1 | C |", (0, 1), "pickup=1, in one word"),
    // Bar lines.
    ("| C ||| F |", (0, 5), "a bar line: |, ||, |:, :| or :|:, or :|3 for what is heard 2 to 99 times"),
    ("| C ::| F |", (0, 5), "a bar line: |, ||, |:, :| or :|:, or :|3 for what is heard 2 to 99 times"),
    ("| C :|1", (0, 5), "a bar line: |, ||, |:, :| or :|:, or :|3 for what is heard 2 to 99 times"),
    ("| C :|100", (0, 5), "a bar line: |, ||, |:, :| or :|:, or :|3 for what is heard 2 to 99 times"),
    ("| C | | F |", (0, 7), "a chord before this bar line, or % for the bar before"),
    ("| |", (0, 3), "a chord before this bar line, or % for the bar before"),
    (":| C |", (0, 1), "bars before this :|"),
    ("| C :| :|", (0, 8), "bars before this :|"),
    ("|: |: C :|", (0, 4), "a bar after the |: before"),
    ("| C | [A] :|", (0, 11), "a chord before this :|"),
    // Where words stand.
    ("| C [B] F |", (0, 5), "[B] at the beginning of a bar"),
    ("| C 3/4 |", (0, 5), "3/4 at the beginning of a bar"),
    ("| C Segno |", (0, 5), "Segno at the beginning of a bar"),
    ("| Fine | C |", (0, 3), "a chord before Fine"),
    ("| C | [A] Fine | C |", (0, 11), "a chord before Fine"),
    ("| C Fine F | D.C. |", (0, 10), "a bar line between Fine and F"),
    ("| C | [B] |", (0, 7), "a chord after this"),
    ("| C |:", (0, 5), "a chord after this"),
    ("| C | pickup=1 F |", (0, 7), "pickup= only once, before everything else"),
    ("pickup=1 pickup=1 | F |", (0, 10), "pickup= only once, before everything else"),
    ("pickup=4 | C | F |", (0, 1), "a pick-up that is shorter than a bar of 4/4"),
    // Signs for what stands before.
    ("| C % |", (0, 5), "% or %% alone in its bar"),
    ("| %% C |", (0, 3), "% or %% alone in its bar"),
    ("| % |", (0, 3), "a chord: it is not certain what stands before this %"),
    ("| C | %% |", (0, 7), "a chord: it is not certain what stands before this %%"),
    ("|: C | 1. F :| 2. % |", (0, 19), "a chord: it is not certain what stands before this %"),
    ("|: C | 1. F :| 2. / / F / |", (0, 19), "a chord: nothing certain sounds here that / could go on with"),
    ("| C | 3/4 % |", (0, 11), "a chord: not all before this % are whole bars of 3/4"),
    ("| C | 3/4 F | %% |", (0, 15), "a chord: not all before this %% are whole bars of 3/4"),
    ("pickup=1 | C | % |", (0, 16), "a chord: not all before this % are whole bars of 4/4"),
    ("| / / C / |", (0, 3), "a chord: nothing certain sounds here that / could go on with"),
    ("| C / F |", (0, 3), "one chord or / for each beat of the bar: 4 in 4/4, not 3"),
    ("| C | 6/8 C / / |", (0, 11), "one chord or / for each beat of the bar: 2 in 6/8, not 3"),
    ("pickup=1/2 | / | C |", (0, 14), "no / in a pick-up that is no number of whole beats"),
    // Repeats.
    ("|: C | F |", (0, 1), "a :| for this |: before another one and before the end"),
    ("|: C |: F :|", (0, 1), "a :| for this |: before another one and before the end"),
    ("|: C | 1. F | 2. G |", (0, 15), "a :| at the end of the ending before"),
    ("|: C | 1. F :| G |", (0, 13), "a 2. ending after this :|, or a |: where its repeat begins"),
    ("|: C | 1. F :| 2. G :|", (0, 21), "a 3. ending after this :|, or a |: where its repeat begins"),
    ("|: C | 1. F |", (0, 8), "a :| at the end of this ending and a 2. after it"),
    ("|: C | 1. F :| 3. G |", (0, 16), "2.: endings are counted from 1"),
    ("|: C | 2. F :| 3. G |", (0, 8), "1.: endings are counted from 1"),
    ("|: C | 1. F :| 2. 3. G |", (0, 16), "one number, as the last ending is heard once"),
    ("|: C | 1. F :|3 2. G |", (0, 13), ":| without a number, as the endings say how often"),
    ("|: C | 1. F :| 2. G | 1. C :| 2. C |", (0, 23), "a :| at the end of the ending before"),
    ("| C ToCoda | F D.C.alCoda | Coda G :|", (0, 36), "a |: where this repeat begins"),
    ("pickup=1 | C :|", (0, 14), "a |: where this repeat begins"),
    // Jumps.
    ("| C | F D.S. |", (0, 9), "a Segno before this D.S."),
    ("| C D.S. | Segno F |", (0, 5), "a Segno before this D.S."),
    ("| C | F D.C.alFine |", (0, 9), "a Fine for this D.C.alFine"),
    ("| C Fine | Segno F D.S.alFine |", (0, 20), "a Fine for this D.S.alFine"),
    ("| C | F D.C.alCoda | Coda G |", (0, 9), "a ToCoda on the way back to this D.C.alCoda"),
    ("| C ToCoda | F D.C.alCoda |", (0, 16), "a Coda in a later bar than this D.C.alCoda"),
    ("| C ToCoda | Coda F | G D.C.alCoda |", (0, 25), "a Coda in a later bar than this D.C.alCoda"),
    ("| C ToCoda | F |", (0, 5), "D.C.alCoda or D.S.alCoda for this ToCoda"),
    ("| C | Coda F |", (0, 7), "D.C.alCoda or D.S.alCoda for this Coda"),
    ("| C Fine | F |", (0, 5), "D.C.alFine or D.S.alFine for this Fine"),
    ("| Segno C | Segno F D.S. |", (0, 13), "one Segno only"),
    ("| C Fine | F Fine D.C. |", (0, 14), "one Fine only"),
    ("| C | F D.C. D.C. |", (0, 14), "one D.C. or D.S. in a bar"),
    ("|: C | 1. F D.C. :| 2. G |", (0, 13), "D.C. in the last ending or outside of endings"),
    ("|: C | 1. Segno F :| 2. G D.S. |", (0, 11), "Segno in the last ending or outside of endings"),
];

#[test]
fn each_mistake_is_told_with_its_place() {
    let mut otherwise = String::new();
    for (text, place, expected) in MISTAKES {
        let Err(error) = BarText::read(text, Meter::COMMON) else { panic!("{text} is read") };
        let said = ((error.line().unwrap_or(0), error.at()), error.expected());
        if said != (*place, *expected) {
            otherwise += &format!("{text}\n  {said:?}\n");
        }
    }
    assert!(otherwise.is_empty(), "{otherwise}");
}

#[test]
fn a_mistake_is_told_in_a_sentence() {
    let said = |text: &str| BarText::read(text, Meter::COMMON).unwrap_err().to_string();
    let unknown = "expected a quality (m, maj, dim, +, sus), a number, an alteration such as b9, add, \
                   no, alt, or /bass";
    assert_eq!(
        said("| Dm7 | G7x |"),
        format!("cannot read the bars \"| Dm7 | G7x |\" at character 11: {unknown}")
    );
    assert_eq!(
        said("# mine\n| Dm7 |\n| G7x | C |"),
        format!("cannot read the bars \"| G7x | C |\" at line 3, character 5: {unknown}")
    );
    // Of a long line the word alone is quoted.
    let long = format!("{} Dm7 | G7x |", "| C ".repeat(40));
    assert_eq!(said(&long), format!("cannot read the bars \"G7x\" at character 170: {unknown}"));
}

#[test]
fn what_holds_no_bars_is_refused() {
    for text in ["", " ", "\n\n", "# a comment", "|", "| |:", "pickup=1", "pickup=1 |", "||"] {
        let error = BarText::read(text, Meter::COMMON);
        assert!(error.is_err(), "{text:?}");
    }
    let said = BarText::read("# a comment\n", Meter::COMMON).unwrap_err().to_string();
    assert!(said.ends_with("expected a chord, or bars as in | Dm7 | G7 |"), "{said}");
}

/// Bounds of length, of a bar and of what is heard.
#[test]
fn there_are_limits() {
    let said = |text: &str| BarText::read(text, Meter::COMMON).unwrap_err().expected().to_owned();
    let heard = |text: &str| read(text).unfolded(OptionalChords::Played).heard.len();
    let bars = |count: usize| "| C ".repeat(count);
    assert_eq!(said(&"C ".repeat(100_001)), "at most 200000 characters");
    assert_eq!(heard(&bars(10_000)), 10_000);
    assert_eq!(said(&bars(10_001)), "at most 10000 bars to be heard");
    assert_eq!(said(&format!("|: {} :|99", bars(102))), "at most 10000 bars to be heard");
    assert_eq!(heard(&format!("|: C {} :|99", bars(100))), 9_999);
    assert_eq!(
        said(&format!("| C | C {}", "| %% ".repeat(5_000))),
        "at most 10000 bars to be heard"
    );
    assert_eq!(heard(&format!("| {} |", "C F ".repeat(32))), 1);
    let full = said(&format!("| {} G |", "C F ".repeat(32)));
    assert_eq!(full, "a bar line: a bar holds 64 chords at most");
}
