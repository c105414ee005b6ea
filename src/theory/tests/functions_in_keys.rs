//! What each degree of each key asks for, whatever the suffix: common practice, no source, unless a
//! line says otherwise. The scale of a chord with a function holds the notes of the key; where players
//! put another in its place, the table says which.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use fretloom_theory::{BarText, Chord, Key, Meter, OptionalChords, PlanChord, Reading};

/// Semitones above the tonic, suffixes, and the kind of the first scale.
type Row = (usize, &'static str, &'static str);

/// A tonic with its major seventh takes the Lydian scale, as players of this music have it.
const MAJOR: &[Row] = &[
    (0, "|6|6/9|add9|sus4|sus2|5", "Ionian"),
    (0, "maj7|maj9|maj13", "Lydian"),
    (2, "m|m7|m9|m11|m6|madd9|sus4|sus2|5", "Dorian"),
    (4, "m|m7|sus4|7sus4b9|5", "Phrygian"),
    (5, "|6|6/9|add9|maj7|maj9|maj7#11|sus2|5", "Lydian"),
    (7, "|6|add9|sus4|sus2|5|7|9|13|7sus4|9sus4|13sus4", "Mixolydian"),
    (9, "m|m7|m9|m11|madd9|sus4|sus2|5", "Aeolian"),
    (11, "dim|m7b5", "Locrian"),
];

/// Natural minor, but the tonic and the iv with a major sixth, and the V with its major third.
const MINOR: &[Row] = &[
    (0, "m|m6|m6/9|m(maj7)|madd9", "melodic minor"),
    (0, "m7|m9", "Dorian"),
    (0, "sus4|sus2|5", "Aeolian"),
    (2, "dim|m7b5", "Locrian"),
    (3, "|6|6/9|add9|maj7|maj9|sus4|sus2|5", "Ionian"),
    (5, "m|m6|madd9", "melodic minor"),
    (5, "m7|m9|m11|sus4|sus2|5", "Dorian"),
    (7, "m|m7|sus4|5", "Phrygian"),
    (7, "|7b9b13", "Phrygian dominant"),
    (7, "7|7alt", "altered"),
    (7, "add9|9b13", "Mixolydian b6"),
    (8, "|6|6/9|add9|maj7|maj9|maj7#11|sus2|5", "Lydian"),
    (10, "|6|add9|7|9|13|sus4|sus2|5", "Mixolydian"),
];

const ROOTS: [&str; 12] = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

fn first_scale(symbol: &str, key: &str) -> (String, String) {
    let chord: Chord = symbol.parse().unwrap();
    let key: Key = key.parse().unwrap();
    let reading = Reading::at(&[chord], 0, Some(key)).unwrap();
    let scale = reading.scales()[0].scale().clone();
    (scale.kind().name().to_owned(), format!("{symbol} in {key}: {reading}: {scale}"))
}

fn check(mode: &str, table: &[Row]) -> usize {
    let mut checked = 0;
    for (tonic, (up, suffixes, kind)) in
        (0..12).flat_map(|tonic| table.iter().map(move |row| (tonic, row)))
    {
        let (root, key) = (ROOTS[(tonic + up) % 12], format!("{}{mode}", ROOTS[tonic]));
        for suffix in suffixes.split('|') {
            let (found, told) = first_scale(&format!("{root}{suffix}"), &key);
            assert_eq!(found, *kind, "{told}");
            checked += 1;
        }
    }
    checked
}

#[test]
fn every_degree_of_every_key_takes_the_scale_of_its_function() {
    assert_eq!(check("", MAJOR), 12 * 55);
    assert_eq!(check(" minor", MINOR), 12 * 58);
}

/// The bass of an inversion is a note of the chord and changes nothing; neither does another note of
/// the key.
#[test]
fn a_bass_of_the_key_changes_no_function() {
    let major = [
        (0, "", [4, 7, 2], "Ionian"),
        (2, "m", [5, 9, 0], "Dorian"),
        (4, "m", [7, 11, 2], "Phrygian"),
        (5, "", [9, 0, 7], "Lydian"),
        (7, "", [11, 2, 5], "Mixolydian"),
        (9, "m", [0, 4, 7], "Aeolian"),
        (11, "dim", [2, 5, 9], "Locrian"),
    ];
    for tonic in 0..12 {
        for (up, suffix, basses, kind) in major {
            for bass in basses {
                let (root, bass) = (ROOTS[(tonic + up) % 12], ROOTS[(tonic + bass) % 12]);
                let (found, told) = first_scale(&format!("{root}{suffix}/{bass}"), ROOTS[tonic]);
                assert_eq!(found, kind, "{told}");
            }
        }
    }
}

/// No first scale lacks a note that the symbol writes, whatever stands around it. Which notes a symbol
/// writes is said by hand.
#[test]
fn the_first_scale_holds_every_written_note() {
    let written: [(&str, &[u8]); 16] = [
        ("", &[4]),
        ("m", &[3]),
        ("6", &[4, 9]),
        ("add9", &[4, 2]),
        ("sus4", &[5]),
        ("maj7", &[4, 11]),
        ("m7", &[3, 10]),
        ("m6", &[3, 9]),
        ("m7b5", &[3, 6, 10]),
        ("7", &[4, 10]),
        ("7#5", &[4, 8, 10]),
        ("7b9", &[4, 1, 10]),
        ("7#11", &[4, 6, 10]),
        ("13", &[4, 9, 10]),
        ("9sus4", &[5, 2, 10]),
        ("dim7", &[3, 6, 9]),
    ];
    let around = ["C", "Dm7", "G7", "Am", "F7", "Bb7", "Em7b5", "E7#9"];
    for (first, root) in (0..).zip(ROOTS) {
        for (suffix, notes) in written {
            for (before, after) in around.iter().flat_map(|b| around.iter().map(move |a| (b, a))) {
                let symbol = format!("{root}{suffix}");
                let chords: Vec<Chord> =
                    [*before, &symbol, *after].iter().map(|chord| chord.parse().unwrap()).collect();
                let reading = Reading::at(&chords, 1, None).unwrap();
                let scale = reading.scales()[0].scale().clone();
                let sounds = |up: &u8| scale.set().iter().any(|c| c.number() == (first + up) % 12);
                assert!(notes.iter().all(sounds), "{before} {symbol} {after}: {reading}, {scale}");
            }
        }
    }
}

/// Neighbours settle a function without a key too.
#[test]
fn neighbours_settle_the_function() {
    for (symbols, says, scale) in [
        ("C6 *F6 G7", "IV of C", "F Lydian"),
        // It sounds as G9sus4.
        ("*F/G Cmaj7", "suspended V of C, which follows", "F Lydian"),
        ("Cm7 *Bb/C F Fmaj7", "suspended V of F, which follows", "B♭ Lydian"),
        ("C6 Dm7 *F/G Em7 A7", "suspended V of C, with iii in place of I", "F Lydian"),
        ("*F/G Cm6", "suspended V of C minor, which follows", "F Lydian dominant"),
        ("C6 *F/A G7 C", "IV of C", "F Lydian"),
        ("*Dm7b5 G7alt", "ii of C minor", "D Locrian"),
        ("*Dm7b5 Cm6", "ii of C minor, which follows", "D Locrian"),
        ("Dm7b5 *G7 Cmaj7", "V of C, with the flat 9 of its ii", "G Phrygian dominant"),
        ("*G7#11 Cmaj7", "V of C, which follows", "G Lydian dominant"),
        ("C7 *F7 C7 G7", "IV of a blues in C", "F Lydian dominant"),
        ("D7 *G7#5 G7 C", "V of C, which follows", "G altered"),
        ("*G7#5 G7 C", "V of C, which follows", "G altered"),
        ("C *E Am", "V of A minor, which follows", "E Phrygian dominant"),
        ("Cmaj7 *E7 F6 Fm6 C", "V of A minor, with ♭VI in place of i", "E altered"),
        ("C *B7 C6 G7 C", "V of E minor, with ♭VI in place of i", "B altered"),
        ("C7 F7 *F#dim7 C7 G7", "holds the root of C7", "F♯ whole-half diminished"),
        ("Cmaj7 Dm7 *D#dim7 C/E F6", "passing up to C/E", "D♯ whole-half diminished"),
        ("F6 *F#dim7 C/G G7 C", "passing up to C/G", "F♯ whole-half diminished"),
        ("C *D G C", "V of G, which follows", "D Mixolydian"),
        ("G7 Cm *Ab G7 Cm", "♭VI of C minor", "A♭ Lydian"),
        ("G7 Cm *Bb Ab G7 Cm", "♭VII of C minor", "B♭ Mixolydian"),
    ] {
        let index = symbols.split(' ').position(|symbol| symbol.starts_with('*')).unwrap();
        let chords: Vec<Chord> =
            symbols.replace('*', "").split(' ').map(|symbol| symbol.parse().unwrap()).collect();
        let reading = Reading::at(&chords, index, None).unwrap();
        let first = reading.scales()[0].scale().to_string();
        assert_eq!((reading.to_string().as_str(), first.as_str()), (says, scale), "{symbols}");
    }
}

/// A minor seventh of four bars is a mode by itself, unless a dominant with its third is near; common
/// practice, no source.
#[test]
fn a_mode_stands_by_itself() {
    for (bars, says) in [
        ("Dm7 | % | % | % | Ebm7 | % | % | % | Fmaj7#11 | % | G7sus4 | %", "stands still"),
        ("Dm7 | % | % | % | G7 | % | Cmaj7 | %", "ii of C"),
    ] {
        let text = BarText::read(bars, Meter::COMMON).unwrap();
        let chords = PlanChord::of_chorus(&text.unfolded(OptionalChords::Played), None);
        let reading = chords[0].1.reading().to_string();
        assert!(reading.starts_with(says), "{bars}: {reading}");
    }
}

#[test]
fn a_key_settles_what_neighbours_leave_open() {
    for (symbols, key, says, scale) in [
        ("*Dm7b5 G7", "C minor", "ii of C minor", "D Locrian"),
        ("*Dm7b5 G7 Ebmaj7", "C minor", "ii of C minor", "D Locrian"),
        ("Dm7b5 *G7 Ebmaj7", "C minor", "V of C minor", "G altered"),
        ("*Gm7", "C minor", "v of C minor", "G Phrygian"),
        ("Cm11 *Dm7/C Cm11", "C minor", "ii of C minor", "D Phrygian"),
        ("*Gm7 C7", "C minor", "ii of F", "G Dorian"),
        ("*F7", "C", "IV of a blues in C", "F Lydian dominant"),
        ("*C7 F7", "C", "tonic of a blues", "C Mixolydian"),
        ("*G C", "C", "V of C, which follows", "G Mixolydian"),
    ] {
        let index = symbols.split(' ').position(|symbol| symbol.starts_with('*')).unwrap();
        let chords: Vec<Chord> =
            symbols.replace('*', "").split(' ').map(|symbol| symbol.parse().unwrap()).collect();
        let reading = Reading::at(&chords, index, Some(key.parse().unwrap())).unwrap();
        let first = reading.scales()[0].scale().to_string();
        assert_eq!((reading.to_string().as_str(), first.as_str()), (says, scale), "{symbols}");
    }
}
