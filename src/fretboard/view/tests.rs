//! The values are computed from open pitches, outside this code; common practice, no source.

use std::collections::BTreeSet;

use fretloom_theory::{Pitch, SpelledTriad};

use super::place::notes_of_pair;
use super::*;
use crate::{Finger, HandPosition};
use fretloom_theory::WhichTriad;

fn neck(tuning: &str) -> Neck {
    Neck::new(crate::Tuning::read(tuning).unwrap())
}

fn pair(names: [&str; 2]) -> TriadPair {
    let [first, second] = names.map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    TriadPair::in_order(first, second).unwrap()
}

fn position(number: u8) -> PositionView {
    PositionView::at(HandPosition::new(number).unwrap())
}

/// `6: F5 G7 F8`, a line a string, the triad named and then the fret.
fn written<'a>(places: impl Iterator<Item = &'a ViewPlace>) -> Vec<String> {
    let mut places: Vec<&ViewPlace> = places.collect();
    places.sort_by_key(|place| (std::cmp::Reverse(place.place.string), place.place.fret));
    let lines = places.chunk_by(|one, next| one.place.string == next.place.string);
    let word = |place: &&ViewPlace| {
        let triad = if place.which == WhichTriad::First { "F" } else { "G" };
        format!(" {triad}{}", place.place.fret)
    };
    let line = |line: &[&ViewPlace]| {
        format!("{}:{}", line[0].place.string, line.iter().map(word).collect::<String>())
    };
    lines.map(line).collect()
}

#[test]
fn f_and_g_in_the_fifth_position() {
    let neck = neck("EADGBE");
    let view = View::Position(position(5));
    let contents = view.contents(&neck, pair(["F", "G"]), Hand::default(), 0);
    let strict = written(contents.places().iter().filter(|place| !place.stretched));
    let expected = ["6: F5 G7 F8", "5: G5 F8", "4: G5 F7", "3: F5 G7", "2: F6 G8", "1: F5 G7 F8"];
    assert_eq!(strict, expected);
    let stretches: Vec<&ViewPlace> = contents.places().iter().filter(|p| p.stretched).collect();
    let of = |string: u8| {
        let place = stretches.iter().find(|p| p.place.string.number() == string).unwrap();
        (place.place.fret.number(), place.finger, place.is_choice, place.pitch.midi())
    };
    assert_eq!(stretches.len(), 2);
    assert_eq!(of(4), (9, Some(Finger::Fourth), true, 59));
    assert_eq!(of(3), (4, Some(Finger::First), true, 59));
    let b = Pitch::from_midi(59).unwrap();
    let others = notes_of_pair(&neck, pair(["F", "G"])).count() - 16;
    assert_eq!(contents.hides(), [Hidden::OutOfBox(b), Hidden::Places(others)]);
}

/// Laws over every position of several instruments: nothing outside six frets, a finger a fret, no
/// pitch of the box twice by a stretch, and every pitch in range is there or told.
#[test]
fn a_position_loses_nothing_silently() {
    for tuning in ["EADGBE", "GCEA", "DADGAD", "EADG", "G3 D4 A4 E5"] {
        let neck = neck(tuning);
        for number in 1..=15 {
            let pair = pair(["Eb", "F"]);
            let contents =
                View::Position(position(number)).contents(&neck, pair, Hand::default(), 0);
            let pitches: BTreeSet<Pitch> = contents.places().iter().map(|p| p.pitch).collect();
            for place in contents.places() {
                let finger = place.finger.unwrap().number();
                let fret = place.place.fret.number();
                match (place.stretched, fret) {
                    (false, 0) => assert_eq!((number, finger), (1, 0)),
                    (false, _) => assert_eq!(fret, number + finger - 1),
                    (true, _) => assert!(fret + 1 == number || fret == number + 4),
                }
                let alike = contents.places().iter().filter(|p| p.pitch == place.pitch);
                let stretched = alike.clone().filter(|p| p.stretched).count();
                assert!(stretched == 0 || stretched == alike.count());
                assert_eq!(place.is_choice, place.stretched && stretched > 1);
            }
            let strict: BTreeSet<Pitch> =
                contents.places().iter().filter(|p| !p.stretched).map(|p| p.pitch).collect();
            let range = strict.first().unwrap().midi()..strict.last().unwrap().midi();
            for pitch in range.filter_map(Pitch::from_midi) {
                if WhichTriad::with(pair, pitch.pitch_class()).is_some() && !strict.contains(&pitch)
                {
                    let told = if pitches.contains(&pitch) {
                        Hidden::OutOfBox(pitch)
                    } else {
                        Hidden::OutOfReach(pitch)
                    };
                    assert!(contents.hides().contains(&told));
                }
            }
        }
    }
}

#[test]
fn open_strings_belong_to_the_first_position() {
    let neck = neck("EADGBE");
    let opens = |view: PositionView| {
        let contents = View::Position(view).contents(&neck, pair(["F", "G"]), Hand::default(), 0);
        contents.places().iter().filter(|place| place.place.fret.is_open()).count()
    };
    assert_eq!(opens(position(1)), 4); // A D G B
    assert_eq!(opens(position(2)), 0);
    assert_eq!(opens(position(9).with_open_strings()), 4);
}

/// Every view shows places of the pair, each once, in order, and counts the rest.
#[test]
fn what_is_seen_and_what_is_hidden_is_all_there_is() {
    for tuning in ["EADGBE", "GCEA", "DADGAD", "EADG"] {
        let neck = neck(tuning);
        for names in [["F", "G"], ["C+", "Eb"]] {
            for view in [
                View::Position(position(5)),
                View::Set(SetView::on("2-1".parse().unwrap())),
                View::Set(SetView::on("3".parse().unwrap())),
                View::Across(ChainQuery::default()),
                View::Two(TwoAStringQuery::default()),
            ] {
                let contents = view.contents(&neck, pair(names), Hand::default(), 0);
                assert!(!contents.places().is_empty(), "{view} {names:?} in {tuning}");
                assert!(contents.places().is_sorted_by_key(|place| place.order));
                assert_eq!(contents.places()[0].order, 1);
                let places: BTreeSet<String> =
                    contents.places().iter().map(|p| format!("{:?}", p.place)).collect();
                assert_eq!(places.len(), contents.places().len());
                let all = notes_of_pair(&neck, pair(names)).count();
                let others = contents.hides().iter().find_map(|hidden| match hidden {
                    Hidden::Places(count) => Some(*count),
                    _ => None,
                });
                assert_eq!(places.len() + others.unwrap_or(0), all);
            }
        }
    }
}

#[test]
fn a_choice_that_is_not_there_shows_nothing() {
    let view = View::Across(ChainQuery::default());
    let contents = view.contents(&neck("EADGBE"), pair(["F", "G"]), Hand::default(), 99);
    assert!(contents.places().is_empty());
}

/// The steps of a string add up to its range, and their millimetres to its length.
#[test]
fn steps_on_a_string_add_up() {
    let neck = neck("EADGBE");
    for set in ["1", "6", "3-2", "6-3"] {
        let set = SetView::on(set.parse().unwrap());
        let contents = View::Set(set).contents(&neck, pair(["F", "G"]), Hand::default(), 0);
        let steps = set.steps(&neck, pair(["F", "G"]));
        for string in set.set().iter() {
            let there = || contents.places().iter().filter(|place| place.place.string == string);
            let (low, high) = (there().next().unwrap(), there().next_back().unwrap());
            let along = || steps.iter().filter(|step| step.from.string == string);
            let frets: i32 = along().map(|step| i32::from(step.frets)).sum();
            assert_eq!(frets, low.pitch.semitones_up_to(high.pitch));
            let mm: f64 = along().map(|step| step.shift_mm).sum();
            assert!((mm - neck.span_mm(low.place.fret, high.place.fret)).abs() < 1e-6);
        }
    }
}

/// Six notes going up, two a string, from every one of the six, each the next of the pair.
#[test]
fn two_a_string_goes_through_all_six() {
    for tuning in ["EADGBE", "GCEA", "EADGCF"] {
        let neck = neck(tuning);
        let pair = pair(["F", "G"]);
        let runs = TwoAStringQuery::default().runs(&neck, pair, Hand::default());
        let starts: BTreeSet<u8> =
            runs.iter().map(|run| run.places()[0].pitch.pitch_class().number()).collect();
        assert_eq!(starts.len(), 6);
        for run in runs {
            let places = run.places();
            let classes: BTreeSet<u8> =
                places.iter().map(|place| place.pitch.pitch_class().number()).collect();
            assert_eq!(classes.len(), 6);
            let pitches: Vec<u8> = places.iter().map(|place| place.pitch.midi()).collect();
            assert!(pitches.is_sorted_by(|one, next| one < next));
            assert!(pitches[5] - pitches[0] < 12);
            for two in places.chunks(2) {
                assert_eq!(two[0].place.string, two[1].place.string);
            }
            for ViewPlace { place, pitch, which, .. } in places {
                assert_eq!(neck.pitch_at(place), Some(pitch));
                assert_eq!(WhichTriad::with(pair, pitch.pitch_class()), Some(which));
            }
        }
    }
}
