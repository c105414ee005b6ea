//! Where programs about necks go wrong, a test for each.
//!
//! Every value is computed from open pitches, outside this code; common practice, no source.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use std::collections::BTreeSet;

use fretloom_fretboard::{
    ArpeggioQuery, Capo, Fret, Hand, HandPosition, Neck, OpenString, PerString, Place,
    PositionView, Shape, ShapeQuery, StringNumber, Tuning, View,
};
use fretloom_theory::{Inversion, SpelledTriad, Triad, TriadPair};

fn tuning(text: &str) -> Tuning {
    Tuning::read(text).unwrap()
}

fn neck(text: &str) -> Neck {
    Neck::new(tuning(text))
}

/// A five-string banjo in open G; string 5 begins at fret 5.
fn banjo() -> Neck {
    let open = |note: &str| OpenString::new(note.parse().unwrap());
    let short = OpenString::starting_at(open("G4").note(), Fret::new(5).unwrap());
    let strings = vec![short, open("D3"), open("G3"), open("B3"), open("D4")];
    Neck::new(Tuning::new(strings, 22, 670.0).unwrap())
}

fn triad(name: &str) -> Triad {
    name.parse::<SpelledTriad>().unwrap().triad()
}

fn place(string: u8, fret: u8) -> Place {
    Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
}

fn frets(shape: &Shape) -> [u8; 3] {
    shape.frets().map(Fret::number)
}

fn shapes_on(neck: &Neck, strings: &str, name: &str) -> Vec<Shape> {
    ShapeQuery::default().on(strings.parse().unwrap()).shapes(neck, triad(name))
}

/// On a ukulele with a high G, string 4 sounds above 3 and 2: G at 4-2-3 is D G B from below, its
/// second inversion, though the B stands on the highest string number.
#[test]
fn an_inversion_is_judged_by_pitch_and_not_by_string() {
    let shapes = shapes_on(&neck("G4 C4 E4 A4"), "4-3-2", "G");
    let shape = shapes.iter().find(|shape| frets(shape) == [4, 2, 3]).unwrap();
    assert_eq!(shape.pitches().map(|pitch| pitch.midi()), [71, 62, 67]);
    assert_eq!(shape.inversion(), Inversion::Second);
}

/// Two strings in unison are one voice: no shape and no arpeggio uses both.
#[test]
fn strings_in_unison_stand_in_no_shape_together() {
    let neck = neck("D3 G3 G3 D4");
    assert!(shapes_on(&neck, "3-2-1", "G").is_empty());
    let every = ShapeQuery::default().skipping_strings();
    let shapes = every.shapes(&neck, triad("G"));
    assert!(shapes.iter().any(|shape| !shape.string_set().is_unbroken()));
    let [two, three] = [2, 3].map(|number| StringNumber::new(number).unwrap());
    for shape in shapes {
        assert!(!(shape.string_set().contains(two) && shape.string_set().contains(three)));
    }
    let both = ArpeggioQuery::new(PerString::Two).on("3-2".parse().unwrap());
    assert!(both.arpeggios(&neck, triad("G")).is_empty());
}

/// The short string of a banjo has no frets 1 to 5; at fret 7 of the neck it sounds A4, two
/// semitones above its open G4, and never 7.
#[test]
fn the_short_string_of_a_banjo_counts_from_its_peg_and_is_written_by_the_neck() {
    let neck = banjo();
    for fret in 1..=5 {
        assert_eq!(neck.pitch_at(place(5, fret)), None, "fret {fret}");
    }
    assert_eq!(neck.pitch_at(place(5, 0)).map(|pitch| pitch.midi()), Some(67));
    assert_eq!(neck.pitch_at(place(5, 7)).map(|pitch| pitch.midi()), Some(69));
    for shape in ShapeQuery::default().skipping_strings().shapes(&neck, triad("A")) {
        for there in shape.places() {
            let fret = there.fret.number();
            assert!(there.string.number() < 5 || fret == 0 || fret > 5, "{:?}", frets(&shape));
        }
    }
}

/// A course of two strings is one string for the hand: the shapes of twelve strings are those of
/// six, and the octaves beside them change no inversion.
#[test]
fn a_course_counts_once() {
    let beside = ["E3", "A3", "D4", "G4", "B3", "E4"].map(|note| vec![note.parse().unwrap()]);
    let twelve = Neck::new(tuning("EADGBE").with_courses(beside.to_vec()).unwrap());
    let six = neck("EADGBE");
    assert_eq!(twelve.tuning().string_count(), 6);
    let all = |neck: &Neck| ShapeQuery::default().skipping_strings().shapes(neck, triad("G"));
    assert_eq!(all(&twelve), all(&six));
}

/// Above the first position open strings are not under the hand, unless they are asked for; behind
/// a capo the first position is the one above it.
#[test]
fn open_strings_are_left_out_above_the_first_position() {
    let f_and_g = TriadPair::in_order(triad("F"), triad("G")).unwrap();
    let opens = |neck: &Neck, position: u8| {
        let view = View::Position(PositionView::at(HandPosition::new(position).unwrap()));
        let contents = view.contents(neck, f_and_g, Hand::default(), 0);
        contents.places().iter().filter(|place| place.place.fret.is_open()).count()
    };
    let plain = neck("EADGBE");
    assert_eq!([1, 2, 5].map(|position| opens(&plain, position)), [4, 0, 0]); // A D G B
    let capo = Capo::full(Fret::new(3).unwrap());
    let capoed = Neck::new(tuning("EADGBE").with_capo(capo).unwrap());
    assert_eq!([4, 5].map(|position| opens(&capoed, position)), [5, 0]); // G C F D G
}

/// Behind a capo over all strings there is nowhere to stand, whatever the grip.
#[test]
fn no_grip_stands_behind_a_capo() {
    for fret in [1, 2, 5, 7] {
        let capo = Capo::full(Fret::new(fret).unwrap());
        let neck = Neck::new(tuning("EADGBE").with_capo(capo).unwrap());
        for name in ["C", "F#m", "Bdim", "E+"] {
            for query in [ShapeQuery::default(), ShapeQuery::default().without_fingers()] {
                for shape in query.skipping_strings().shapes(&neck, triad(name)) {
                    assert!(shape.position().number() > fret, "{name} {:?}", frets(&shape));
                }
            }
            for arpeggio in ArpeggioQuery::new(PerString::Two).arpeggios(&neck, triad(name)) {
                assert!(arpeggio.position().number() > fret, "{name}");
            }
        }
    }
}

/// What does not fit on the neck is cut off and counted: a neck of 12 frets has the shapes of one
/// with 36 that lie up to fret 12, and counts those that lie across its end.
#[test]
fn shapes_above_the_last_fret_are_cut_off_and_counted() {
    let open = |note: &str| OpenString::new(note.parse().unwrap());
    let with = |frets| {
        let strings = ["E2", "A2", "D3", "G3", "B3", "E4"].map(open).to_vec();
        Neck::new(Tuning::new(strings, frets, 648.0).unwrap())
    };
    let (short, long) = (with(12), with(36));
    let query = ShapeQuery::default().skipping_strings().of_both_voicings();
    let mut cut = BTreeSet::new();
    for name in ["C", "D", "F#m", "Bdim", "E+"] {
        let all = query.shapes(&long, triad(name));
        let fits = |shape: &&Shape| frets(shape).iter().all(|fret| *fret <= 12);
        let kept: Vec<[u8; 3]> = all.iter().filter(fits).map(frets).collect();
        let found: Vec<[u8; 3]> = query.shapes(&short, triad(name)).iter().map(frets).collect();
        assert_eq!(found, kept, "{name}");
        let across = |shape: &&Shape| {
            let fretted = || frets(shape).into_iter().filter(|fret| *fret > 0);
            fretted().any(|fret| fret <= 12) && fretted().any(|fret| fret > 12)
        };
        let expected = all.iter().filter(across).count();
        assert_eq!(query.cut_off(&short, triad(name)), expected, "{name}");
        cut.insert(expected);
    }
    assert!(cut.len() > 1 && !cut.contains(&0), "{cut:?}");
}
