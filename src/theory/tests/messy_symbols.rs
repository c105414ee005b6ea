//! Symbols as real charts, copied pages and hasty hands write them.
//!
//! The notes are written by hand, in semitones above the root: common practice, no source.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

use std::collections::BTreeSet;

use fretloom_theory::ReadChord;

/// What stands after the root, and the notes.
#[rustfmt::skip]
const MESSY: &[(&str, &str)] = &[
    ("13(no11)", "0 4 7 10 2 9"), ("9no9", "0 4 7 10"), ("9(no5)", "0 4 10 2"), ("13no9", "0 4 7 10 9"),
    ("m11no9", "0 3 7 10 5"), ("(no3,5)", "0"), ("(no3, 5)", "0"), ("7(no3,no5)", "0 10"),
    ("7omit5", "0 4 10"), ("5", "0 7"), ("sus4(add3)", "0 4 7 5"), ("sus(add3)", "0 4 7 5"),
    ("7sus4(add3)", "0 4 7 10 5"), ("9sus4add3", "0 4 7 10 2 5"), ("sus2(add3)", "0 4 7 2"), ("⁷", "0 4 7 10"),
    ("maj⁷", "0 4 7 11"), ("m⁷", "0 3 7 10"), ("⁶", "0 4 7 9"), ("m⁶", "0 3 7 9"),
    ("⁹", "0 4 7 10 2"), ("¹³", "0 4 7 10 2 9"), ("m⁷♭⁵", "0 3 6 10"), ("₇", "0 4 7 10"),
    ("ø⁷", "0 3 6 10"), ("°⁷", "0 3 6 9"), ("⁷⁽♭⁹⁾", "0 4 7 10 1"), ("⁺", "0 4 8"),
    ("７", "0 4 7 10"), ("ｍ７", "0 3 7 10"), ("Ｍ７", "0 4 7 11"), ("ｍａｊ７", "0 4 7 11"),
    ("（♭９）", "0 4 7 1"), ("７（♭９）", "0 4 7 10 1"), ("７［♯１１］", "0 4 7 10 6"), ("ｓｕｓ４", "0 5 7"),
    ("６／９", "0 4 7 9 2"), ("6⁄9", "0 4 7 9 2"), ("6∕9", "0 4 7 9 2"), ("m6⁄9", "0 3 7 9 2"),
    ("∅", "0 3 6 10"), ("∅7", "0 3 6 10"), ("⌀7", "0 3 6 10"), ("˚7", "0 3 6 9"),
    ("º7", "0 3 6 9"), (" half dim", "0 3 6 10"), (" half-dim", "0 3 6 10"), (" half diminished", "0 3 6 10"),
    (" half-diminished", "0 3 6 10"), ("half-diminished7", "0 3 6 10"), ("h7", "0 3 6 10"), ("h", "0 3 6 10"),
    ("hdim7", "0 3 6 10"), (" diminished", "0 3 6"), (" diminished 7", "0 3 6 9"), (" augmented", "0 4 8"),
    (" augmented 7", "0 4 8 10"), (" suspended", "0 5 7"), (" suspended 4", "0 5 7"), (" suspended 2", "0 2 7"),
    (" minor", "0 3 7"), (" minor 7", "0 3 7 10"), (" major 7", "0 4 7 11"), (" dominant 7", "0 4 7 10"),
    (" dom7", "0 4 7 10"), ("dom", "0 4 7 10"), (" dominant", "0 4 7 10"), ("dom9", "0 4 7 10 2"),
    ("7 flat 9", "0 4 7 10 1"), ("7 flat9", "0 4 7 10 1"), ("7 sharp 11", "0 4 7 10 6"), ("7 flat 5", "0 4 6 10"),
    ("7 sharp 9", "0 4 7 10 3"), ("m7 flat 5", "0 3 6 10"), ("7 sharp 5 sharp 9", "0 4 8 10 3"), ("maj7 sharp 11", "0 4 7 11 6"),
    ("7.", "0 4 7 10"), ("m7.", "0 3 7 10"), ("maj7,", "0 4 7 11"), (" ", "0 4 7"),
    (".", "0 4 7"), ("°7(add maj7)", "0 3 6 9 11"), ("°7(maj7)", "0 3 6 9 11"), ("dim7add maj7", "0 3 6 9 11"),
    ("m(add maj7)", "0 3 7 11"), ("/9", "0 4 7 2"), ("m/9", "0 3 7 2"), ("/11", "0 4 7 5"),
    ("m/11", "0 3 7 5"), ("/13", "0 4 7 9"), ("7/9", "0 4 7 10 2"), ("7/b9", "0 4 7 10 1"),
    ("m7/11", "0 3 7 10 5"), ("maj7/9", "0 4 7 11 2"), ("sus2(#11)", "0 2 7 6"), ("sus4(addb9)", "0 5 7 1"),
    ("sus(b9)", "0 5 7 10 1"), ("maj7(13)", "0 4 7 11 9"), ("Δ(13)", "0 4 7 11 9"), ("Δ7(13)", "0 4 7 11 9"),
    ("Δ(9)", "0 4 7 11 2"), ("maj(#11)", "0 4 7 6"), ("Δ(#11)", "0 4 7 11 6"), ("maj7(#11)", "0 4 7 11 6"),
    ("M7", "0 4 7 11"), ("ma7", "0 4 7 11"), ("MA7", "0 4 7 11"), ("j7", "0 4 7 11"),
    ("^7", "0 4 7 11"), ("-7", "0 3 7 10"), ("−7", "0 3 7 10"), ("–7b5", "0 3 6 10"),
    ("-Δ7", "0 3 7 11"), ("mi7", "0 3 7 10"), ("MI7", "0 3 7 10"), ("min7b5", "0 3 6 10"),
    ("-7(b5)", "0 3 6 10"), ("7+5", "0 4 8 10"), ("7-9", "0 4 7 10 1"), ("7(b9,b13)", "0 4 7 10 1 8"),
    ("7 (#9)", "0 4 7 10 3"), ("7[b9]", "0 4 7 10 1"), ("+7", "0 4 8 10"), ("aug7", "0 4 8 10"),
    ("7aug", "0 4 8 10"), ("2", "0 4 7 2"), ("4", "0 5 7"), ("69", "0 4 7 9 2"),
    ("6add9", "0 4 7 9 2"), ("7sus", "0 5 7 10"), ("9sus", "0 5 7 10 2"), ("13sus", "0 5 7 10 2 9"),
    ("m(maj7)", "0 3 7 11"), ("mM7", "0 3 7 11"), ("m#7", "0 3 7 11"), (":min7", "0 3 7 10"),
    (":maj7", "0 4 7 11"), ("m7add11", "0 3 7 10 5"), ("add2", "0 4 7 2"), ("madd9", "0 3 7 2"),
];

/// Roots as they are typed, with the pitch class of each, C being 0.
const ROOTS: [(&str, u8); 6] = [("C", 0), ("F#", 6), ("B♭", 10), ("Ab", 8), ("g", 7), ("eb", 3)];

#[test]
fn messy_symbols_are_read_as_they_are_meant() {
    let mut read = 0;
    for (after, semitones) in MESSY {
        for (root, class) in ROOTS {
            let symbol = format!("{root}{after}");
            let chord = symbol.parse::<ReadChord>().map(|read| read.chord);
            let found: BTreeSet<u8> = chord
                .unwrap_or_else(|error| panic!("{error}"))
                .set()
                .iter()
                .map(|c| c.number())
                .collect();
            let semitones = semitones.split(' ').map(|up| up.parse::<u8>().unwrap());
            let wanted: BTreeSet<u8> = semitones.map(|up| (class + up) % 12).collect();
            assert_eq!(found, wanted, "{symbol}");
            read += 1;
        }
    }
    assert!(read >= 600, "{read}");
}

/// Brackets around all of it, and what stands around them, change nothing.
#[test]
fn what_surrounds_a_symbol_changes_nothing() {
    for symbol in ["C7", "Dm7b5", "F#maj7", "Bb13", "Gsus4"] {
        let plain: ReadChord = symbol.parse().unwrap();
        for around in [
            format!("({symbol})"),
            format!("[{symbol}]"),
            format!(" ({symbol}) "),
            format!("{symbol}."),
        ] {
            assert_eq!(around.parse::<ReadChord>().unwrap(), plain, "{around}");
        }
    }
}

/// What is typed in haste is read and said.
#[test]
fn small_letters_are_read_as_notes_and_said() {
    for (typed, meant) in [
        ("dm7", "Dm7"),
        ("bb7", "B♭7"),
        ("b7", "B7"),
        ("bbm7", "B♭m7"),
        ("cmaj7", "Cmaj7"),
        ("c/e", "C/E"),
        ("C/bb", "C/B♭"),
        ("f#7", "F♯7"),
        ("abmaj7", "A♭maj7"),
        ("g", "G"),
        ("eb", "E♭"),
        ("a", "A"),
    ] {
        let read: ReadChord = typed.parse().unwrap();
        assert_eq!(read.chord.to_string(), meant, "{typed}");
        let said: Vec<String> = read.assumed.iter().map(ToString::to_string).collect();
        assert_eq!(said, ["the first small letter is read as the note"], "{typed}");
    }
}

/// A fifth raised by a sign goes before a bass.
#[test]
fn a_raised_fifth_goes_before_a_bass() {
    for symbol in ["C+5/E", "C+/E", "Caug/E", "C(#5)/E"] {
        assert_eq!(symbol.parse::<ReadChord>().unwrap().chord.to_string(), "C+/E", "{symbol}");
    }
}

/// Errors quote what was typed and point into it, whatever signs it has.
#[test]
fn errors_quote_what_was_typed() {
    for (symbol, at) in [("C⁷x", 3), ("Ｃ７ｑ", 3), ("(C7x)", 4), ("C7⁽♭⁹", 6)] {
        let error = symbol.parse::<ReadChord>().unwrap_err();
        assert_eq!((error.text(), error.at()), (symbol, at));
    }
}
