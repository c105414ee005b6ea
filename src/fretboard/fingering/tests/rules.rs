//! The rules of position playing, one by one; common practice, no source, unless it says so.

use super::super::cost::{Avoid, Cost};
use super::super::hurry::Hurry;
use super::*;
use crate::{Capo, StringSet};

#[test]
fn a_shift_waits_for_a_pause() {
    let neck = neck("EADGBE");
    // Up one string, with one long note: the hand moves there and nowhere else.
    let line = pinned(&neck, &[(1, 5), (1, 7), (1, 8), (1, 10), (1, 12)], 0.2);
    let times = [0.0, 0.2, 0.4, 1.6, 1.8];
    let line: Vec<LineNote> = line
        .iter()
        .zip(times)
        .map(|(note, onset_s)| {
            LineNote::new(onset_s, 0.2, note.pitch()).unwrap().pinned(note.pin())
        })
        .collect();
    let fingering = best(&neck, &line);
    let positions: Vec<HandPosition> = fingering.notes().iter().map(|note| note.position).collect();
    assert_eq!(fingering.shifts(), 1);
    assert!(positions[2] < positions[3], "{positions:?}");
}

#[test]
fn the_less_time_there_is_the_dearer_the_shift() {
    let neck = neck("EADGBE");
    let places = [(1, 3), (1, 10)];
    let cost = |seconds| best(&neck, &pinned(&neck, &places, seconds)).cost();
    assert!(cost(0.1) > cost(0.3));
    assert!(cost(0.3) > cost(1.0));
}

#[test]
fn a_shift_is_easier_while_an_open_string_sounds() {
    let neck = neck("EADGBE");
    let with_open = best(&neck, &pinned(&neck, &[(2, 3), (1, 0), (2, 10)], 0.2));
    let with_fretted = best(&neck, &pinned(&neck, &[(2, 3), (1, 5), (2, 10)], 0.2));
    assert_eq!(with_open.shifts(), 1);
    let open_string = Taste::default().open_string_mm();
    assert!(with_open.cost() - open_string < with_fretted.cost());
}

/// A finger that stays on its string guides the hand where there is time; at tempo it is a slide,
/// which is worse than another finger.
#[test]
fn one_finger_guides_the_hand_but_not_at_tempo() {
    let neck = neck("EADGBE");
    let cost = Cost::new(&neck, &FingeringQuery::default(), Avoid::Nothing, &[]);
    let note = |finger, fret, position| FingeredNote {
        place: place(2, fret),
        finger,
        position: HandPosition::new(position).unwrap(),
    };
    let from = note(Finger::Second, 6, 5);
    let guided = note(Finger::Second, 9, 8);
    let other = note(Finger::First, 8, 8);
    let is_easier = |seconds| {
        let hurry = Hurry::within_s(seconds);
        cost.between(from, guided, hurry) < cost.between(from, other, hurry)
    };
    assert!(is_easier(1.0));
    assert!(!is_easier(0.1));
}

#[test]
fn the_first_finger_reaches_back_for_one_note() {
    let neck = neck("EADGBE");
    let places = [(6, 8), (5, 8), (4, 8), (3, 4), (4, 8), (5, 8), (6, 8)];
    let fingering = best(&neck, &pinned(&neck, &places, 0.2));
    assert_eq!(fingering.shifts(), 0);
    assert_eq!(fingering.notes()[3].finger, Finger::First);
    assert_eq!(fingering.notes()[3].position.number(), 5);
}

#[test]
fn a_stretch_is_preferred_to_moving_the_hand_for_one_note() {
    let neck = neck("EADGBE");
    let line = pinned(&neck, &[(4, 5), (4, 7), (4, 9), (3, 5), (3, 7)], 0.2);
    assert_eq!(best(&neck, &line).shifts(), 0);
}

#[test]
fn no_finger_hops_between_frets_at_tempo() {
    let neck = neck("EADGBE");
    for low in 2..12 {
        for high in low + 1..=low + 3 {
            for strings in [(3, 2), (2, 3), (4, 2)] {
                let line = pinned(&neck, &[(strings.0, low), (strings.1, high)], 0.12);
                let found = fingers(&best(&neck, &line));
                assert_ne!(found[0], found[1], "{low} to {high}");
            }
        }
    }
}

#[test]
fn the_fourth_finger_is_used_last() {
    let neck = neck("EADGBE");
    for places in [[(3, 5), (3, 7)], [(2, 6), (3, 5)], [(4, 8), (4, 7)]] {
        let found = fingers(&best(&neck, &pinned(&neck, &places, 0.25)));
        assert!(!found.contains(&4), "{places:?}: {found:?}");
    }
}

#[test]
fn the_hand_does_not_wander_up_without_reason() {
    let neck = neck("EADGBE");
    for midi in 52..=72 {
        let fingering = best(&neck, &free(&[midi, midi + 2, midi + 3], 0.25));
        let (_, high) = fingering.positions().unwrap();
        assert!(high.number() <= 12, "{midi}: {fingering}");
    }
}

#[test]
fn an_open_string_is_left_out_unless_it_helps() {
    let neck = neck("EADGBE");
    // C D E F G could be played with two open strings.
    assert_eq!(best(&neck, &free(&[48, 50, 52, 53, 55], 0.25)).open_strings(), 0);
    let liked = Taste::default().with_open_strings_at_mm(0.0);
    let query = FingeringQuery::default().to_taste(liked);
    assert!(query.best(&neck, &free(&[48, 50, 52, 53, 55], 0.25)).unwrap().open_strings() > 0);
}

#[test]
fn pins_are_kept_and_the_rest_follows_them() {
    let neck = neck("EADGBE");
    let mut line = free(&[60, 62, 64], 0.25);
    line[1] = line[1].pinned(Pin { string: StringNumber::new(4), fret: None });
    let fingering = best(&neck, &line);
    assert_eq!(fingering.notes()[1].place, place(4, 12));
    let near = |note: &FingeredNote| note.place.fret.number() >= 8;
    assert!(fingering.notes().iter().all(near), "{fingering:?}");
}

#[test]
fn what_is_asked_for_is_kept() {
    let neck = neck("EADGBE");
    let line = free(&[55, 57, 59, 60, 62, 64], 0.25);
    let set: StringSet = "4-3".parse().unwrap();
    let on_set = FingeringQuery::default().on(set).best(&neck, &line).unwrap();
    assert!(on_set.notes().iter().all(|note| set.contains(note.place.string)));
    let low = FingeringQuery::default().within("0-5".parse().unwrap());
    let low = low.best(&neck, &line).unwrap();
    assert!(low.notes().iter().all(|note| note.place.fret <= Fret::new(5).unwrap()));
}

#[test]
fn notes_that_begin_together_lie_on_different_strings() {
    let neck = neck("EADGBE");
    let c = |midi| Pitch::from_midi(midi).unwrap();
    let chord = [52, 55, 60, 64].map(|midi| LineNote::new(0.0, 1.0, c(midi)).unwrap());
    let fingering = best(&neck, &chord);
    assert_eq!(fingering.strings().unwrap().len(), 4);
    assert_eq!(fingering.broken_chords(), [] as [BrokenChord; 0]);
    let strummed: Vec<LineNote> = [(0.0, 52), (0.015, 55), (0.029, 60)]
        .map(|(onset_s, midi)| LineNote::new(onset_s, 1.0, c(midi)).unwrap())
        .to_vec();
    assert_eq!(best(&neck, &strummed).strings().unwrap().len(), 3);
}

#[test]
fn what_has_no_string_of_its_own_comes_next() {
    let neck = neck("EADGBE");
    let low =
        [40, 41].map(|midi| LineNote::new(0.0, 1.0, Pitch::from_midi(midi).unwrap()).unwrap());
    let fingering = best(&neck, &low);
    let broken = BrokenChord { groups: vec![vec![0], vec![1]], by: BrokenBy::Strings };
    assert_eq!(fingering.broken_chords(), [broken]);
    assert_eq!([fingering.moment(0), fingering.moment(1)], [Some(0), Some(1)]);
    assert_eq!(fingering.notes()[1].place, place(6, 1));
}

#[test]
fn notes_without_a_place_are_all_told() {
    let neck = neck("EADGBE");
    let mut line = free(&[30, 60, 127, 64], 0.25);
    line[3] = line[3].pinned(Pin { string: StringNumber::new(2), fret: Fret::new(7) });
    let error = FingeringQuery::default().best(&neck, &line).unwrap_err();
    let expected =
        vec![(0, Misfit::NotOnTheNeck), (2, Misfit::NotOnTheNeck), (3, Misfit::NotWherePinned)];
    assert_eq!(error, FingeringError::Misfits(expected));
    let only = FingeringQuery::default().on("6".parse().unwrap());
    let error = only.best(&neck, &free(&[60, 76], 0.25)).unwrap_err();
    assert_eq!(error, FingeringError::Misfits(vec![(1, Misfit::NotWhereAsked)]));
}

#[test]
fn the_same_line_always_gets_the_same_fingering() {
    let neck = neck("EADGBE");
    let line = free(&[55, 59, 62, 57, 61, 64, 62, 59, 55, 69, 64, 61], 0.2);
    let query = FingeringQuery::default();
    let first = query.alternatives(&neck, &line, 6).unwrap();
    for _ in 0..5 {
        assert_eq!(query.alternatives(&neck, &line, 6).unwrap(), first);
    }
}

/// Half a second is a pause, 30 ms are together, and equal ways stay equal, whatever sum of floats
/// the seconds are.
#[test]
fn the_last_bits_of_seconds_change_nothing() {
    let neck = neck("EADGBE");
    let line = |onset_s: &dyn Fn(usize) -> f64| -> Vec<LineNote> {
        let midi = [52, 55, 59, 64, 67, 71, 76, 74, 62, 50, 48, 65, 69, 57, 60, 64].into_iter();
        let pitches = midi.cycle().take(160).map(|midi| Pitch::from_midi(midi).unwrap());
        let notes = pitches.enumerate();
        notes.map(|(n, pitch)| LineNote::new(onset_s(n), 0.1, pitch).unwrap()).collect()
    };
    for step in [0.1, 0.5, 0.03] {
        let straight = best(&neck, &line(&|n| n as f64 * step));
        let summed = best(&neck, &line(&|n| (0..n).fold(0.0, |sum, _| sum + step)));
        let later = best(&neck, &line(&|n| n as f64 * step + 1.0 / 3.0));
        for other in [summed, later] {
            assert_eq!(straight.notes(), other.notes(), "{step}");
            assert_eq!(straight.hurried_shifts(), other.hurried_shifts(), "{step}");
        }
    }
}

#[test]
fn order_in_the_file_is_order_in_the_answer() {
    let neck = neck("EADGBE");
    let mut line = free(&[55, 59, 62, 67], 0.2);
    let straight = best(&neck, &line);
    line.reverse();
    let mut turned: Vec<FingeredNote> = best(&neck, &line).notes().to_vec();
    turned.reverse();
    assert_eq!(turned, straight.notes());
}

#[test]
fn a_line_without_notes_has_a_fingering_without_notes() {
    let fingering = best(&neck("EADGBE"), &[]);
    assert!(fingering.notes().is_empty());
    assert_eq!(fingering.cost(), 0.0);
    assert_eq!(
        FingeringQuery::default().alternatives(&neck("EADG"), &[], 3).unwrap().fingerings.len(),
        1
    );
}

#[test]
fn ways_differ_and_say_why() {
    let neck = neck("EADGBE");
    let ways = FingeringQuery::default()
        .alternatives(&neck, &free(&[52, 55, 59, 64, 67], 0.25), 6)
        .unwrap()
        .fingerings;
    assert_eq!(ways.len(), 6);
    assert_eq!(ways[0].condition(), FingeringCondition::Easiest);
    for (index, way) in ways.iter().enumerate() {
        assert!(ways[..index].iter().all(|other| !other.has_places_of(way)));
        assert!(index == 0 || ways[0].cost() <= way.cost());
    }
}

/// Behind a capo the hand cannot stand, and the neck is as much shorter as it is for the ear.
#[test]
fn behind_a_capo_the_same_line_lies_as_much_higher() {
    let capo = Capo::full(Fret::new(3).unwrap());
    let capoed = Neck::new(Tuning::read("EADGBE").unwrap().with_capo(capo).unwrap());
    let plain = best(&neck("EADGBE"), &pinned(&neck("EADGBE"), &[(2, 0), (2, 1), (1, 3)], 0.5));
    let moved = best(&capoed, &pinned(&capoed, &[(2, 0), (2, 4), (1, 6)], 0.5));
    assert_eq!(fingers(&moved), fingers(&plain));
    let position = |fingering: &Fingering| fingering.notes()[1].position.number();
    assert_eq!((position(&plain), position(&moved)), (1, 4));
}
