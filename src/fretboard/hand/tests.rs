//! What hands do: common practice, no source, unless one is named.

use super::*;
use crate::{Place, StringNumber, Tuning};

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

/// The grip of `frets` on the strings from `highest` down, side by side.
fn grip(neck: &Neck, highest: u8, frets: [u8; 3]) -> Option<Grip> {
    let mut string = highest;
    let places = frets.map(|fret| {
        let number = StringNumber::new(string).unwrap();
        string -= 1;
        Place::new(number, Fret::new(fret).unwrap())
    });
    Hand::default().grip(neck, places)
}

fn fingers(highest: u8, frets: [u8; 3]) -> Option<[u8; 3]> {
    let grip = grip(&neck("EADGBE"), highest, frets)?;
    Some(grip.fingers().map(Finger::number))
}

/// Common practice, no source: the everyday fingerings of the close triads.
#[test]
fn everyday_grips_get_their_everyday_fingers() {
    for (highest, frets, expected) in [
        (4, [9, 7, 8], [3, 1, 2]),
        (4, [10, 9, 8], [3, 2, 1]),
        (4, [5, 5, 5], [1, 1, 1]),
        (4, [10, 8, 8], [3, 1, 1]),
        (4, [10, 8, 7], [4, 2, 1]),
        (4, [5, 5, 4], [2, 3, 1]),
        (3, [5, 6, 5], [1, 2, 1]),
        (3, [9, 8, 8], [2, 1, 1]),
        (3, [10, 10, 8], [3, 4, 1]),
        (3, [12, 13, 11], [2, 3, 1]),
        (3, [11, 13, 11], [1, 3, 1]),
        (4, [13, 11, 13], [3, 1, 4]),
        (6, [8, 7, 5], [4, 3, 1]),
        (6, [2, 3, 1], [2, 3, 1]),
        (5, [3, 2, 0], [2, 1, 0]),
        (3, [0, 1, 0], [0, 1, 0]),
        (3, [0, 0, 0], [0, 0, 0]),
    ] {
        assert_eq!(fingers(highest, frets), Some(expected), "{highest}: {frets:?}");
    }
}

/// Five frets fit a hand at the fifth fret, six do not at the first; on a bass even five at the
/// first are out of reach. Common practice, no source.
#[test]
fn what_no_hand_can_hold_gets_no_fingers() {
    assert!(fingers(6, [5, 3, 1]).is_some());
    assert!(fingers(6, [6, 3, 1]).is_none());
    assert!(fingers(6, [10, 7, 5]).is_some());
    let bass = neck("EADG");
    assert!(grip(&bass, 4, [4, 2, 1]).is_some());
    assert!(grip(&bass, 4, [5, 3, 1]).is_none());
    assert!(grip(&neck("GCEA"), 4, [7, 4, 1]).is_some());
}

#[test]
fn a_flat_finger_covers_nothing_that_sounds_lower() {
    let neck = neck("EADGBE");
    for frets in [[5, 0, 5], [5, 3, 5]] {
        let [one, _, other] = grip(&neck, 4, frets).unwrap().fingers();
        assert_ne!(one, other, "{frets:?}");
    }
}

#[test]
fn two_notes_on_one_string_are_no_grip() {
    let place = Place::new(StringNumber::FIRST, Fret::OPEN);
    assert_eq!(Hand::default().grip(&neck("EADG"), [place; 3]), None);
}

/// Laws over every grip of five frets on three neighbouring strings.
#[test]
fn every_grip_keeps_the_order_of_fingers_and_frets() {
    let neck = neck("EADGBE");
    for code in 0u8..216 {
        let frets = [code / 36, code / 6 % 6, code % 6].map(|up| up + 5);
        let Some(grip) = grip(&neck, 4, frets) else {
            continue;
        };
        let fingers = grip.fingers();
        for (one, other) in [(0, 1), (0, 2), (1, 2)] {
            if frets[one] < frets[other] {
                assert!(fingers[one] < fingers[other], "{frets:?}: {fingers:?}");
            }
            if frets[one] > frets[other] {
                assert!(fingers[one] > fingers[other], "{frets:?}: {fingers:?}");
            }
        }
        assert!(grip.cost_mm() >= 0.0);
    }
}

#[test]
fn a_hand_has_a_size() {
    assert_eq!(Hand::reaching_mm(39.0), None);
    assert_eq!(Hand::reaching_mm(f64::NAN), None);
    let small = Hand::reaching_mm(60.0).unwrap();
    let places = [(4, 5), (3, 3), (2, 1)].map(|(string, fret)| {
        Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
    });
    assert_eq!(small.grip(&neck("EADGBE"), places), None);
}

/// Every grip of five frets on three strings: the first is the chosen one, all differ, and no two
/// read alike.
#[test]
fn alternatives_are_distinct_and_say_why() {
    let neck = neck("EADGBE");
    for strings in [[4, 3, 2], [5, 3, 2], [5, 3, 1]] {
        for code in 0u8..216 {
            let frets =
                [code / 36, code / 6 % 6, code % 6].map(|up| if up == 5 { 0 } else { up + 5 });
            let mut number = strings.into_iter();
            let places = frets.map(|fret| {
                let string = StringNumber::new(number.next().unwrap()).unwrap();
                Place::new(string, Fret::new(fret).unwrap())
            });
            let grips = Hand::default().grips(&neck, places);
            assert_eq!(grips.first().copied(), Hand::default().grip(&neck, places));
            for (index, one) in grips.iter().enumerate() {
                for other in &grips[index + 1..] {
                    assert!(one.cost_mm() <= other.cost_mm());
                    assert_ne!(one.fingers(), other.fingers());
                    assert_ne!(one.reason(), other.reason(), "{frets:?} {one:?} {other:?}");
                }
            }
        }
    }
}

#[test]
fn reasons_and_flat_fingers_in_words() {
    let neck = neck("EADGBE");
    for (highest, frets, reason) in [
        (4, [9, 7, 8], "one finger a fret in position VII, no little finger"),
        (3, [0, 0, 0], "all strings open"),
        (3, [0, 1, 0], "first finger alone"),
        (4, [5, 5, 5], "first finger lies flat over strings 4-3-2, no little finger"),
        (
            3,
            [5, 6, 5],
            "first finger lies flat over strings 3-1, one finger a fret in position V, no little finger",
        ),
    ] {
        let said = grip(&neck, highest, frets).unwrap().reason();
        assert_eq!(said, reason, "{frets:?}");
    }
    let said = grip(&neck, 3, [10, 10, 8]).unwrap().reason();
    assert!(said.contains("third and fourth finger beside each other on fret 10"), "{said}");
    let barre = grip(&neck, 4, [10, 8, 8]).unwrap().barre().unwrap();
    assert_eq!((barre.finger, barre.fret.number()), (Finger::First, 8));
    assert_eq!(barre.strings.to_string(), "3-2");
}

#[test]
fn a_stretch_near_the_end_of_the_reach_is_wide() {
    assert_eq!(Hand::default().ease_of(95.0), Ease::Easy);
    assert_eq!(Hand::default().ease_of(97.0), Ease::Wide);
    assert_eq!(Hand::reaching_mm(100.0).unwrap().ease_of(85.0), Ease::Wide);
}
