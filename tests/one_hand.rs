//! One hand: what `finger` and `shapes` give is held against the rules of a hand, written here once
//! more, slowly and in plain numbers. Nothing of the program's own rules is used: not its
//! millimetres, its orders or its searches.
//!
//! The rules are common practice, no source, but for the sizes of a hand, which
//! [`Hand`](fretloom_fretboard::Hand) explains.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

use fretloom_fretboard::{
    BrokenBy, FingeredNote, Fingering, FingeringQuery, Fret, Hand, LineNote, Neck, Pin, Place,
    ShapeQuery, StringNumber, Tuning, Voicing,
};
use fretloom_theory::{Triad, TriadQuality};
use proptest::prelude::*;

/// A string, a fret and a finger; fret and finger 0 are an open string.
type Held = (u8, u8, u8);

const GUITAR: &str = "EADGBE";
const GUITAR_MM: f64 = 648.0;
const REACH_MM: f64 = 120.0;

/// Where a fret's wire is, from the nut.
fn wire_mm(scale_mm: f64, fret: u8) -> f64 {
    let mut left = scale_mm;
    for _ in 0..fret {
        left /= 2f64.powf(1.0 / 12.0);
    }
    scale_mm - left
}

/// Do two fingers, `apart` in number, get from one fret to a higher one? The lower stands at its
/// wire; the higher stands where a fingertip 16 mm wide first finds room, or at its wire.
fn reach(scale_mm: f64, low: u8, high: u8, apart: u8) -> bool {
    let room = wire_mm(scale_mm, high) - wire_mm(scale_mm, high - 1);
    let stands = wire_mm(scale_mm, high - 1) + room.min(8.0);
    let most = [0.0, 0.45, 0.75, 1.0][usize::from(apart)] * REACH_MM;
    stands - wire_mm(scale_mm, low) <= most
}

/// What is wrong with these fingers, if anything is.
fn wrong(scale_mm: f64, held: &[Held]) -> Option<String> {
    for (_, fret, finger) in held {
        if (*fret == 0) != (*finger == 0) || *finger > 4 {
            return Some(format!("finger {finger} at fret {fret}"));
        }
    }
    for (index, &(string, fret, finger)) in held.iter().enumerate() {
        for &(other_string, other_fret, other_finger) in &held[index + 1..] {
            if string == other_string {
                return Some(format!("two notes on string {string}"));
            }
            if fret == 0 || other_fret == 0 {
                continue;
            }
            let two = format!("fingers {finger} and {other_finger} at {fret} and {other_fret}");
            if finger == other_finger {
                if fret != other_fret {
                    return Some(format!("one finger on two frets: {two}"));
                }
                if finger == 2 {
                    return Some("the second finger lies flat".to_owned());
                }
                if finger > 2 && string.abs_diff(other_string) > 2 {
                    return Some(format!("finger {finger} lies flat over more than three strings"));
                }
                for &(under, lower, _) in held {
                    let is_under =
                        (string.min(other_string)..=string.max(other_string)).contains(&under);
                    if is_under && lower < fret {
                        return Some(format!("string {under} is covered by finger {finger}"));
                    }
                }
            } else if fret == other_fret {
                // Towards string 1 the fingers rise.
                if (finger < other_finger) != (string > other_string) {
                    return Some(format!("fingers fall towards string 1: {two}"));
                }
            } else {
                if (finger < other_finger) != (fret < other_fret) {
                    return Some(format!("a lower finger on a higher fret: {two}"));
                }
                let (low, high) = (fret.min(other_fret), fret.max(other_fret));
                if !reach(scale_mm, low, high, finger.abs_diff(other_finger)) {
                    return Some(format!("out of reach: {two}"));
                }
            }
        }
    }
    None
}

/// All fingers with which these places can be held, by trying every one.
fn every_hold(scale_mm: f64, places: &[(u8, u8)]) -> Vec<Vec<u8>> {
    let mut found = Vec::new();
    for code in 0..5usize.pow(u32::try_from(places.len()).unwrap()) {
        let finger = |index: usize| u8::try_from(code / 5usize.pow(index as u32) % 5).unwrap();
        let fingers: Vec<u8> = (0..places.len()).map(finger).collect();
        let held: Vec<Held> =
            places.iter().zip(&fingers).map(|(at, finger)| (at.0, at.1, *finger)).collect();
        if wrong(scale_mm, &held).is_none() {
            found.push(fingers);
        }
    }
    found.sort();
    found
}

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

fn held(notes: &[FingeredNote]) -> Vec<Held> {
    let held = |note: &FingeredNote| {
        (note.place.string.number(), note.place.fret.number(), note.finger.number())
    };
    notes.iter().map(held).collect()
}

/// The chord at these places, all at once, as the line of a score that pins them.
fn chord(neck: &Neck, places: &[(u8, u8)]) -> Vec<LineNote> {
    let note = |(string, fret): &(u8, u8)| {
        let place = Place::new(StringNumber::new(*string).unwrap(), Fret::new(*fret).unwrap());
        let note = LineNote::new(1.0, 0.5, neck.pitch_at(place).unwrap()).unwrap();
        note.pinned(Pin { string: Some(place.string), fret: Some(place.fret) })
    };
    places.iter().map(note).collect()
}

fn best(neck: &Neck, line: &[LineNote]) -> Fingering {
    FingeringQuery::default().best(neck, line).unwrap()
}

/// Every close and open shape of the 48 major, minor, diminished and augmented triads.
fn every_shape(neck: &Neck) -> Vec<Vec<(u8, u8)>> {
    let mut shapes = Vec::new();
    for triad in Triad::every(TriadQuality::TERTIAN) {
        for voicing in [Voicing::Close, Voicing::Open] {
            let found = ShapeQuery::default().voiced(voicing).shapes(neck, triad);
            shapes.extend(found.iter().map(|shape| {
                let places = shape.places().into_iter();
                places.map(|at| (at.string.number(), at.fret.number())).collect()
            }));
        }
    }
    shapes
}

/// As a chord of a line a shape is held as `shapes` holds it, and where no hand holds it, it is
/// broken up.
#[test]
fn a_chord_of_a_line_obeys_the_same_hand_as_a_shape() {
    let neck = neck(GUITAR);
    let shapes = every_shape(&neck);
    assert!(shapes.len() > 1000, "{}", shapes.len());
    let mut broken_up = 0;
    for places in shapes {
        let possible = every_hold(GUITAR_MM, &places);
        let at = |index: usize| {
            let (string, fret) = places[index];
            Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
        };
        let grips = Hand::default().grips(&neck, [at(0), at(1), at(2)]);
        let mut ours: Vec<Vec<u8>> =
            grips.iter().map(|grip| grip.fingers().map(|it| it.number()).to_vec()).collect();
        let easiest = ours.first().cloned();
        ours.sort();
        assert_eq!(ours, possible, "{places:?}");
        let line = chord(&neck, &places);
        let fingering = best(&neck, &line);
        let fingers: Vec<u8> = fingering.notes().iter().map(|it| it.finger.number()).collect();
        match easiest {
            Some(easiest) => assert_eq!(fingers, easiest, "{places:?}"),
            None => {
                broken_up += 1;
                assert!(!fingering.broken_chords().is_empty(), "{places:?}");
            }
        }
        check_every_moment(GUITAR_MM, &fingering);
    }
    assert!(broken_up > 10, "{broken_up}");
}

/// What sounds together is held by one hand, in one position.
fn check_every_moment(scale_mm: f64, fingering: &Fingering) {
    let count = fingering.notes().len();
    for moment in (0..count).filter_map(|index| fingering.moment(index)) {
        let together = (0..count).filter(|index| fingering.moment(*index) == Some(moment));
        let notes: Vec<FingeredNote> = together.map(|index| fingering.notes()[index]).collect();
        let held = held(&notes);
        assert_eq!(wrong(scale_mm, &held), None, "{held:?}");
        assert!(notes.iter().all(|note| note.position == notes[0].position), "{notes:?}");
    }
}

/// The grips that are in every first book of chords: common practice, no source.
#[test]
fn fingers_at_one_fret_rise_towards_string_1() {
    let neck = neck(GUITAR);
    let fingers = |places: &[(u8, u8)]| {
        let fingering = best(&neck, &chord(&neck, places));
        fingering.notes().iter().map(|note| note.finger.number()).collect::<Vec<_>>()
    };
    let e = [(6, 0), (5, 2), (4, 2), (3, 1), (2, 0), (1, 0)];
    assert_eq!(fingers(&e), [0, 2, 3, 1, 0, 0]);
    let c = [(5, 3), (4, 2), (3, 0), (2, 1), (1, 0)];
    assert_eq!(fingers(&c), [3, 2, 0, 1, 0]);
    let a_minor = [(5, 0), (4, 2), (3, 2), (2, 1), (1, 0)];
    assert_eq!(fingers(&a_minor), [0, 2, 3, 1, 0]);
    let f_barre = [(6, 1), (5, 3), (4, 3), (3, 2), (2, 1), (1, 1)];
    assert_eq!(fingers(&f_barre), [1, 3, 4, 2, 1, 1]);
    let cross = every_hold(GUITAR_MM, &[(3, 2), (2, 1), (1, 1)]);
    assert!(cross.contains(&vec![3, 1, 2]) && !cross.contains(&vec![3, 2, 1]), "{cross:?}");
    let d = every_hold(GUITAR_MM, &[(3, 2), (2, 3), (1, 2)]);
    assert!(d.contains(&vec![1, 3, 2]) && !d.contains(&vec![2, 3, 1]), "{d:?}");
    let a = every_hold(GUITAR_MM, &[(4, 2), (3, 2), (2, 2)]);
    assert!(a.contains(&vec![1, 2, 3]) && !a.contains(&vec![2, 1, 3]), "{a:?}");
}

/// E♭3 G3 C4 at 1-0-1, and three neighbouring semitones.
#[test]
fn what_no_hand_holds_is_played_one_after_another() {
    let neck = neck(GUITAR);
    let fingering = best(&neck, &chord(&neck, &[(4, 1), (3, 0), (2, 1)]));
    let fingers: Vec<u8> = fingering.notes().iter().map(|note| note.finger.number()).collect();
    assert_eq!(fingers, [1, 0, 2]);
    let far = best(&neck, &chord(&neck, &[(3, 12), (2, 15), (1, 21)]));
    let [broken] = far.broken_chords() else { panic!("{far:?}") };
    assert_eq!((&broken.groups, broken.by), (&vec![vec![0, 1], vec![2]], BrokenBy::Hand));
    let flat = best(&neck, &chord(&neck, &[(4, 1), (3, 5), (2, 1), (1, 9)]));
    check_every_moment(GUITAR_MM, &flat);
}

prop_compose! {
    /// A tuning, and a chord on some of its strings, mostly within a hand.
    fn neck_and_chord()(
        tuning in prop::sample::select(vec![
            "EADGBE", "EADG", "GCEA", "BEADGBE", "DADGAD", "E2 E2 E3 E3 E4 E4",
        ]),
        low in 0u8..11,
        frets in prop::collection::vec(prop::option::weighted(0.8, 0u8..6), 7),
        opens in prop::collection::vec(prop::bool::weighted(0.15), 7),
    ) -> (&'static str, Vec<(u8, u8)>) {
        let neck = neck(tuning);
        let strings = u8::try_from(neck.tuning().string_count()).unwrap();
        let last = neck.tuning().last_fret().number();
        let places = (1..=strings).rev().zip(frets).zip(opens).filter_map(|((string, up), open)| {
            Some((string, if open { 0 } else { (low + up?).min(last) }))
        });
        (tuning, places.collect())
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    /// A chord that some hand holds is held, by allowed fingers; any other is broken up, and each
    /// part is held.
    #[test]
    fn any_chord_is_held_if_a_hand_can((tuning, places) in neck_and_chord()) {
        prop_assume!(!places.is_empty());
        let neck = neck(tuning);
        let scale_mm = neck.tuning().scale_mm();
        let fingering = best(&neck, &chord(&neck, &places));
        check_every_moment(scale_mm, &fingering);
        let is_possible = places.len() == 1 || !every_hold(scale_mm, &places).is_empty();
        prop_assert_eq!(fingering.broken_chords().is_empty(), is_possible, "{:?}", places);
    }

    /// The same where the program chooses the places.
    #[test]
    fn chords_without_places_are_held((tuning, places) in neck_and_chord(), times in 1u8..4) {
        let neck = neck(tuning);
        let mut line = Vec::new();
        for time in 0..times {
            line.extend(chord(&neck, &places).iter().map(|note| {
                LineNote::new(f64::from(time), 0.5, note.pitch()).unwrap()
            }));
        }
        let ways = FingeringQuery::default().alternatives(&neck, &line, 6).unwrap();
        for way in &ways.fingerings {
            check_every_moment(neck.tuning().scale_mm(), way);
        }
    }
}
