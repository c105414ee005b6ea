//! Chord symbols against what general-purpose libraries and open textbooks read in them.

#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::collections::BTreeSet;

use fretloom_theory::{Assumption, Chord, NoteName, PitchClass, ReadChord};
use proptest::prelude::*;

/// The head of the file says where its values come from.
const REFERENCE: &str = include_str!("../../../tests/reference/chord_symbols.tsv");

fn numbers(list: &str) -> BTreeSet<u8> {
    list.split_whitespace().map(|number| number.parse().unwrap()).collect()
}

fn sounding(chord: &Chord) -> BTreeSet<u8> {
    chord.set().iter().map(PitchClass::number).collect()
}

#[test]
fn every_reference_symbol_gives_the_same_root_bass_and_notes() {
    let rows = REFERENCE.lines().filter(|line| !line.starts_with('#'));
    let mut count = 0;
    for row in rows {
        let fields: Vec<&str> = row.split('\t').collect();
        let [symbol, root, bass, classes, ..] = fields[..] else { panic!("{row}") };
        let chord: Chord = symbol.parse().unwrap_or_else(|error| panic!("{symbol}: {error}"));
        let same = |name: NoteName, text: &str| format!("{name:#}") == text;
        assert!(same(chord.root(), root), "{symbol}: {}", chord.root());
        assert!(same(chord.bass().unwrap_or(chord.root()), bass), "{symbol}");
        assert_eq!(sounding(&chord), numbers(classes), "{symbol} = {chord}");
        count += 1;
    }
    assert_eq!(count, 462);
}

#[test]
fn every_reference_symbol_prints_in_house_style_and_reads_back() {
    for row in REFERENCE.lines().filter(|line| !line.starts_with('#')) {
        let symbol = row.split('\t').next().unwrap();
        let chord: Chord = symbol.parse().unwrap();
        assert_eq!(chord.to_string().parse(), Ok(chord.clone()), "{symbol} as {chord}");
        assert_eq!(format!("{chord:#}").parse(), Ok(chord.clone()), "{symbol} as {chord:#}");
    }
}

/// common practice, no source
#[test]
fn dialects_of_one_chord_print_alike() {
    for (house, dialects) in [
        ("Cm7", "C-7|Cmi7|Cmin7|CMIN7|Cminor7|Cm(7)"),
        ("Cmaj7", "CM7|Cma7|CMa7|CMA7|CΔ7|C∆|C△|C^|C^7|Cj7|C(maj7)|Cmajor7"),
        ("Cm7♭5", "Cø|Cø7|CØ7|C-7b5|Cmin7(b5)|C-7(-5)|Cm7-5"),
        ("Cdim7", "Co7|C°7|Cº7"),
        ("C+", "Caug|C(#5)|C+5"),
        ("C7♯5", "C+7|C7+|Caug7|C7(#5)|C7+5"),
        ("C6/9", "C69|C6/9|C6add9|C6(9)|C6 9"),
        ("Cm(maj7)", "CmM7|C-Δ7|C-Δ|CmΔ|C-(maj7)|Cmmaj7|CmMaj7|Cm^7"),
        ("C7sus4", "C7sus|Csus7|C7(sus4)|C7 sus"),
        ("C9sus4", "C9sus|C11|Csus9|C9(sus)"),
        ("C7sus4♭9", "C7susb9|Csus(b9)|C7b9sus|C7sus4(b9)|C7(b9)sus4"),
        ("C7alt", "Calt|C7(alt)|Calt7|C7alt(#9)"),
        ("C7♭9♯11", "C7b9#11|C7(b9,#11)|C7(#11 b9)|C7 #11 -9|C7b9#4|C7 ( #11 , b9 )|C7[b9#11]"),
        ("C13♭9", "C13b9|C13(b9)|C7(b9)(13)|C7b9(13)"),
        ("C7(13)", "C7add13|C7(13)|C7add6|C7(6)|C(b7)(6)|C(b7)/6"),
        ("Cadd9", "Cadd9|Cadd2|C2|C(add9)|C(9)|C add 9"),
        ("C5", "C5|Cno3|Comit3|C(no3rd)|C(omit 3)"),
        ("C7no5", "C7no5|C7omit5|C7(no5)"),
        ("Cmaj7♯11/E", "CΔ7(#11)/E|CM7+11/E|Cmaj7(+11)/E"),
        ("E♭7♭9", "Eb7b9|E♭7♭9|Eb7(-9)"),
        ("Cm9", "C-9|Cm7(9)|Cm7add9"),
        ("C7♯9", "C7b10|C7+9|C7(#9)|C7#2"),
        ("Cmadd9", "Cm(add9)|Cmadd9|C-add9|Cm2|Cm(9)"),
        ("Cm6/9", "C-6/9|Cm69|Cmi6/9"),
        ("F♯m7♭5/C", "F#-7b5/C|F♯ø/C"),
        ("C13sus4", "C13sus|Csus13|C13(sus4)"),
        ("Cm11♭5", "Cø11|Cm11b5|C-11(b5)"),
        ("C9", "C79|C7(9)|C7/9"),
        ("C7♭9", "C79b|C7/b9|C7 b9"),
        ("C13", "C7913|C7/9/13"),
        ("C9♯11", "C7911#|C7(9,#11)"),
        ("C7♭9♭13", "C7(b9/b13)|C7b9/b13|C7(b9,b13)"),
        ("Cmaj9♯11", "Cj7911#|Cj79(#11)"),
        ("Cmaj7", "C7M"),
        ("Cm(maj7)", "Cm/maj7|Cm7M|C-j7|Cmi/ma7"),
        ("Cdim7(maj7)", "C°7(maj7)|Cdim7(maj7)"),
        ("C13sus4", "Csus7913"),
        ("C7/E", "C7 / E"),
        ("Cmaj7♯5", "C+M7|Caugmaj7|CΔ#5|Cmaj7(#5)"),
    ] {
        for dialect in dialects.split('|').filter(|text| !text.is_empty()) {
            let chord: Chord = dialect.parse().unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(chord.to_string(), house, "{dialect}");
        }
    }
}

/// common practice, no source; Hutchinson 31.1 insists on the three chords with a flat and a 9.
#[test]
fn signs_mean_what_their_place_says() {
    for (symbol, degrees) in [
        ("Cb9", "1 3 5 b7 9"),
        ("C(b9)", "1 3 5 b9"),
        ("C7(b9)", "1 3 5 b7 b9"),
        ("Eb9", "1 3 5 b7 9"),
        ("C-7-9", "1 b3 5 b7 b9"),
        ("C-7-5", "1 b3 b5 b7"),
        ("C+9", "1 3 #5 b7 9"),
        ("C7+9", "1 3 5 b7 #9"),
        ("CM7", "1 3 5 7"),
        ("Cm7", "1 b3 5 b7"),
        ("C6/9/E", "1 3 5 6 9"),
        ("Csus24", "1 2 4 5"),
        ("C7#11", "1 3 5 b7 #11"),
        ("C7b5", "1 3 b5 b7"),
        ("C7b13", "1 3 5 b7 b13"),
        ("C7#5", "1 3 #5 b7"),
        ("Csusb7", "1 4 5 b7"),
    ] {
        let chord: Chord = symbol.parse().unwrap_or_else(|error| panic!("{error}"));
        let read: Vec<String> =
            chord.degrees().iter().map(|degree| format!("{degree:#}")).collect();
        assert_eq!(read.join(" "), degrees, "{symbol}");
    }
    assert_eq!("Cb9".parse::<Chord>().unwrap().root().to_string(), "C♭");
}

#[test]
fn what_was_assumed_is_said() {
    for (symbol, expected) in [
        ("CΔ", "the triangle alone is read as maj7"),
        ("C°", "° without a 7 is read as the diminished triad"),
        ("Cø", "ø is read as m7♭5, its seventh included"),
        ("Calt", "alt is read as ♭9 ♯9 ♭5 ♯5 without natural 5 or 9"),
        ("C11", "11 is read as 9sus4, without the third"),
        ("C13", "13 is read without the 11"),
        ("Csus", "sus is read as sus4"),
        ("Csus4(b9)", "sus with a tension is read as a 7sus4 chord"),
        ("C2", "2 is read as an added 9"),
        ("C7+9", "+ and - before a number are read as sharp and flat"),
        ("Cb9", "the flat belongs to the root; write C(♭9) for an altered note"),
        ("C7b5#11", "the ♯11 is the ♭5 that is named already"),
        ("Dm7sus4", "sus replaces the third"),
        ("C79b", "numbers in a row are read as tensions one after another"),
        ("C7M", "the seventh is read as major"),
        ("C(9)", "a number in brackets without a 7 is read as an added note"),
    ] {
        let read: ReadChord = symbol.parse().unwrap();
        let said: Vec<String> = read.assumed.iter().map(ToString::to_string).collect();
        assert_eq!(said, [expected], "{symbol}");
    }
    for plain in ["C", "Cm7", "Cdim7", "C7b9", "Gmaj7#11", "C9sus4", "Eb9", "Csus4", "C6/9"] {
        assert_eq!(plain.parse::<ReadChord>().unwrap().assumed, [], "{plain}");
    }
}

#[test]
fn mistakes_point_at_the_character_and_name_what_could_stand_there() {
    for (symbol, at, expected) in [
        ("", 1, "a note letter, A to G"),
        ("H7", 1, "a note letter, A to G; H is written B here, and B is Bb"),
        ("Es7", 2, "b for -es and -s, as in Bb7 for Bes7 and Eb7 for Es7"),
        ("Bes7", 2, "b for -es and -s, as in Bb7 for Bes7 and Eb7 for Es7"),
        ("Fis7", 2, "# for -is, as in F#7 for Fis7"),
        ("Db#5", 3, "the second sign in brackets, as in Db(#5)"),
        ("B b7", 3, "the flat next to the root, or none before a 7"),
        (
            "C7x",
            3,
            "a quality (m, maj, dim, +, sus), a number, an alteration such as b9, add, \
                    no, alt, or /bass",
        ),
        ("Cbb7", 3, "a root with at most one accidental"),
        ("N.C.", 1, "a chord; N.C. asks for none"),
        ("C8", 2, "one of 2, 4, 5, 6, 7, 9, 11, 13 or 6/9"),
        ("C7811", 2, "one of 2, 4, 5, 6, 7, 9, 11, 13 or 6/9"),
        ("C7b", 4, "a number after the flat or sharp, as in b9"),
        ("C7b3", 3, "one of b5, #5, b9, #9, #11, b13"),
        ("C7add", 6, "a note to add: 2, 4, 6, 9, 11, 13 or an altered one"),
        ("C7no", 5, "3, 5, or a 9, 11 or 13 that the number implies"),
        ("C7no4", 5, "3, 5, or a 9, 11 or 13 that the number implies"),
        ("C7no9", 5, "3, 5, or a 9, 11 or 13 that the number implies"),
        ("C7add8", 6, "a note to add: 2, 4, 6, 9, 11, 13 or an altered one"),
        ("Cadd3", 5, "a note to add: 2, 4, 6, 9, 11, 13 or an altered one"),
        ("Cmalt", 3, "alt on a dominant seventh, as in C7alt"),
        ("C7(b9", 6, "a closing bracket"),
        ("C7b9)", 5, "no closing bracket, as none was opened"),
        ("C/", 3, "a bass note, A to G"),
        ("C/x", 3, "a bass note, A to G"),
        ("C7/E7", 5, "nothing more after the bass note"),
        ("Cmm7", 3, "one quality, before the number"),
        ("Cm5", 3, "b5 or #5, or 5 right after the root"),
        ("Cmaj7alt", 6, "alt on a dominant seventh, as in C7alt"),
    ] {
        let error = symbol.parse::<Chord>().unwrap_err();
        assert_eq!((error.at(), error.advice().as_str()), (at, expected), "{symbol}");
    }
}

#[test]
fn a_double_accidental_is_marked_at_the_sign_that_is_too_much() {
    for (symbol, at) in
        [("Cbb7", 3), ("C##", 3), ("C♭♭7", 3), ("C𝄫", 2), ("C𝄪7", 2), (" C𝄪7", 3), ("  Dbbm", 5)]
    {
        let error = symbol.parse::<Chord>().unwrap_err();
        assert_eq!(error.expected(), "a root with at most one accidental", "{symbol}");
        assert_eq!(error.at(), at, "{symbol}");
    }
}

#[test]
fn an_endless_symbol_is_refused_at_once() {
    for symbol in ["C".repeat(1 << 20), "C7".to_owned() + &"(".repeat(1 << 20)] {
        let error = symbol.parse::<Chord>().unwrap_err();
        assert_eq!(error.expected(), "a symbol of at most 80 characters");
        assert!(error.to_string().len() < 300);
    }
}

#[test]
fn an_assumption_names_the_two_names_of_one_note() {
    let read: ReadChord = "C7#5b13".parse().unwrap();
    assert!(matches!(read.assumed[..], [Assumption::SameNote { .. }]));
}

/// Symbols put together from their pieces, most of them chords.
fn symbols() -> impl Strategy<Value = String> {
    let root = "[A-G][b#]?";
    let quality = prop::sample::select(vec![
        "", "m", "maj", "M", "-", "dim", "°", "ø", "+", "Δ", "aug", "m(maj7)", "h", ":min",
    ]);
    let number = prop::sample::select(vec!["", "5", "6", "6/9", "7", "9", "11", "13", "2", "4"]);
    let sus = prop::sample::select(vec!["", "", "sus4", "sus2", "sus", "alt"]);
    let tension = prop::sample::select(vec![
        "b5", "#5", "b9", "#9", "#11", "b13", "(13)", "(9)", "(11)", "add9", "add11", "add13",
        "no3", "no5", "(b9,#11)", "addb9", "add6", "(9+)", "(5-)", "(4)", "(♮9)", "(6/9)", "/13",
        "(maj7)", "(#7)",
    ]);
    let bass = prop::sample::select(vec!["", "/E", "/Bb", "/F#"]);
    (root, quality, number, sus, prop::collection::vec(tension, 0..4), bass).prop_map(
        |(root, quality, number, sus, tensions, bass)| {
            format!("{root}{quality}{number}{sus}{}{bass}", tensions.concat())
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(20_000))]

    #[test]
    fn what_is_read_prints_and_reads_back(symbol in symbols()) {
        if let Ok(chord) = symbol.parse::<Chord>() {
            let print = chord.to_string();
            prop_assert_eq!(print.parse::<Chord>(), Ok(chord.clone()), "{} as {}", symbol, print);
            let ascii = format!("{chord:#}");
            prop_assert!(ascii.is_ascii());
            prop_assert_eq!(ascii.parse::<Chord>(), Ok(chord), "{} as {}", symbol, ascii);
        }
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in "\\PC{0,40}") {
        let _ = text.parse::<Chord>();
        let _ = format!("C{text}").parse::<Chord>();
    }
}
