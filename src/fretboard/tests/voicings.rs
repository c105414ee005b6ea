//! Close, open and wide voicings beside every way there is to put three fingers on three strings.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use std::collections::BTreeSet;

use fretloom_fretboard::{Neck, Shape, ShapeQuery, Tuning, Voicing};
use fretloom_theory::SpelledTriad;

/// Strings from the highest number down, with frets.
type Grip = ([u8; 3], [u8; 3]);

/// Open strings of a guitar in standard tuning, string 1 first, as MIDI numbers.
const OPEN: [i32; 6] = [64, 59, 55, 50, 45, 40];
const FRETS: u8 = 22;

fn neck() -> Neck {
    Neck::new(Tuning::read("E2 A2 D3 G3 B3 E4").unwrap())
}

/// Every three frets on every three strings that sound the triad, rising along the strings, by how
/// far the notes lie apart: by trying all of them.
fn tried(classes: [i32; 3]) -> [BTreeSet<Grip>; 3] {
    let mut found = [BTreeSet::new(), BTreeSet::new(), BTreeSet::new()];
    let strings = (3..=6).flat_map(|a| (2..a).flat_map(move |b| (1..b).map(move |c| [a, b, c])));
    for strings in strings {
        for code in 0..usize::from(FRETS + 1).pow(3) {
            let base = usize::from(FRETS + 1);
            let frets = [code / base / base, code / base % base, code % base];
            let frets = frets.map(|fret| u8::try_from(fret).unwrap());
            let pitch =
                |index: usize| OPEN[usize::from(strings[index]) - 1] + i32::from(frets[index]);
            let [low, middle, high] = [pitch(0), pitch(1), pitch(2)];
            let sounding: BTreeSet<i32> = [low % 12, middle % 12, high % 12].into();
            if !(low < middle && middle < high) || sounding != BTreeSet::from(classes) {
                continue;
            }
            // Open: with the top note an octave lower it would be a close triad with another middle.
            let (first, second) = (middle - low, high - low);
            let voicing = match () {
                () if second < 12 => 0,
                () if first < 12 && (1..first).contains(&(second - 12)) => 1,
                () => 2,
            };
            found[voicing].insert((strings, frets));
        }
    }
    found
}

fn grip(shape: &Shape) -> Grip {
    (shape.strings().map(|string| string.number()), shape.frets().map(|fret| fret.number()))
}

fn asked(query: ShapeQuery, triad: &str) -> BTreeSet<Grip> {
    let triad = triad.parse::<SpelledTriad>().unwrap().triad();
    let shapes = query.skipping_strings().without_fingers().shapes(&neck(), triad);
    let grips: BTreeSet<Grip> = shapes.iter().map(grip).collect();
    assert_eq!(grips.len(), shapes.len(), "a shape is listed twice");
    grips
}

#[test]
fn every_voicing_is_all_that_can_be_fingered_on_three_strings() {
    for (name, classes) in
        [("Ab", [8, 0, 3]), ("Am", [9, 0, 4]), ("Bdim", [11, 2, 5]), ("C+", [0, 4, 8])]
    {
        let voicings = [Voicing::Close, Voicing::Open, Voicing::Wide];
        let tried = tried(classes);
        for (voicing, tried) in voicings.into_iter().zip(&tried) {
            let found = asked(ShapeQuery::default().voiced(voicing), name);
            assert_eq!(&found, tried, "{name} {voicing}");
            assert!(found.len() > 40, "{name} {voicing}: {}", found.len());
        }
        let all: BTreeSet<Grip> = tried.iter().flatten().copied().collect();
        assert_eq!(asked(ShapeQuery::default().of_all_voicings(), name), all, "{name}");
    }
}

/// Grips that players use every day: common practice, no source.
#[test]
fn everyday_wide_grips_are_there_with_fingers() {
    for (name, strings, frets) in [("Ab", "6-3-2", [4, 5, 4]), ("Am", "6-5-2", [0, 0, 1])] {
        let triad = name.parse::<SpelledTriad>().unwrap().triad();
        let query = ShapeQuery::default().voiced(Voicing::Wide).on(strings.parse().unwrap());
        let shapes = query.shapes(&neck(), triad);
        let shape = shapes.iter().find(|shape| shape.frets().map(|fret| fret.number()) == frets);
        assert!(shape.unwrap().fingers().is_some(), "{name}");
    }
}

/// What a hand can hold comes before what it cannot, and each part keeps its order.
#[test]
fn of_open_and_wide_shapes_the_playable_come_first() {
    let triad = "G".parse::<SpelledTriad>().unwrap().triad();
    for voicing in [Voicing::Open, Voicing::Wide] {
        let query = ShapeQuery::default().voiced(voicing).skipping_strings();
        let shapes = query.shapes(&neck(), triad);
        let playable = shapes.iter().take_while(|shape| shape.fingers().is_some()).count();
        assert!((1..shapes.len()).contains(&playable), "{voicing}: {playable}");
        assert!(shapes[playable..].iter().all(|shape| shape.fingers().is_none()), "{voicing}");
        let bare = query.without_fingers().shapes(&neck(), triad);
        let kept = |fingers: bool| {
            let held = shapes.iter().filter(move |shape| shape.fingers().is_some() == fingers);
            held.map(grip).collect::<Vec<_>>()
        };
        for part in [kept(true), kept(false)] {
            let in_order = bare.iter().map(grip).filter(|grip| part.contains(grip));
            assert!(in_order.eq(part.iter().copied()), "{voicing}");
        }
    }
}
