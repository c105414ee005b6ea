//! What must hold on the neck of every built-in tuning, however it is strung.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

use fretloom::library::LoadedTunings;
use fretloom_fretboard::{Ladder, Neck, ShapeQuery, StringSet, Tuning, Way};
use fretloom_theory::{SpelledTriad, Triad, TriadQuality};

fn for_every_tuning(check: impl Fn(&Tuning)) {
    let tunings = LoadedTunings::load(None);
    assert!(tunings.problems().is_empty());
    assert!(tunings.iter().count() > 0);
    tunings.iter().for_each(|(tuning, _)| check(tuning));
}

/// A string number, a fret and what sounds there.
type Note = (u8, u8, i32);

/// Every note of each string, worked out here from open notes and start frets; string 1 first.
fn notes_by_string(tuning: &Tuning) -> Vec<Vec<Note>> {
    let last = tuning.last_fret().number();
    let mut strings: Vec<Vec<Note>> = tuning
        .strings()
        .map(|(number, string)| {
            let (number, open) = (number.number(), i32::from(string.pitch().midi()));
            let start = string.starts_at().number();
            let above =
                (start + 1..=last).map(|fret| (number, fret, open + i32::from(fret - start)));
            std::iter::once((number, 0, open)).chain(above).collect()
        })
        .collect();
    strings.sort();
    strings
}

/// The notes of a triad on each string.
fn only(strings: &[Vec<Note>], triad: Triad) -> Vec<Vec<Note>> {
    let members = triad.members().map(|class| i32::from(class.number()));
    let belongs = |note: &Note| members.contains(&note.2.rem_euclid(12));
    strings.iter().map(|notes| notes.iter().copied().filter(belongs).collect()).collect()
}

/// All threes of places that sound three different members within an octave, the higher string the
/// higher note; strings in unison do not stand together.
fn by_brute_force(strings: &[Vec<Note>], notes: &[Vec<Note>]) -> Vec<[(u8, u8); 3]> {
    let mut found = Vec::new();
    for (one, first) in notes.iter().enumerate() {
        for (two, second) in notes.iter().enumerate().skip(one + 1) {
            for (three, third) in notes.iter().enumerate().skip(two + 1) {
                let mut order = [one, two, three].map(|string| (strings[string][0].2, string));
                order.sort_unstable();
                if order[0].0 == order[1].0 || order[1].0 == order[2].0 {
                    continue;
                }
                for low in first {
                    for middle in second.iter().filter(|note| is_near(low, note)) {
                        for high in third.iter().filter(|n| is_near(low, n) && is_near(middle, n)) {
                            let sound = [(one, low), (two, middle), (three, high)];
                            let pitch = |string| sound.iter().find(|s| s.0 == string).unwrap().1.2;
                            let rising = order.map(|(_, string)| pitch(string));
                            if rising[0] < rising[1] && rising[1] < rising[2] {
                                found.push([high, middle, low].map(|note| (note.0, note.1)));
                            }
                        }
                    }
                }
            }
        }
    }
    found.sort_unstable();
    found
}

/// Within an octave, and not the same member.
fn is_near(one: &Note, other: &Note) -> bool {
    let apart = (one.2 - other.2).abs();
    apart != 0 && apart < 12
}

#[test]
fn close_shapes_are_those_of_brute_force() {
    let query = ShapeQuery::default().skipping_strings().without_fingers();
    for_every_tuning(|tuning| {
        let (neck, strings) = (Neck::new(tuning.clone()), notes_by_string(tuning));
        for triad in Triad::every(TriadQuality::TERTIAN) {
            let shapes = query.shapes(&neck, triad);
            let places = shapes.iter().map(|shape| {
                shape.places().map(|place| (place.string.number(), place.fret.number()))
            });
            let mut found: Vec<[(u8, u8); 3]> = places.collect();
            found.sort_unstable();
            let expected = by_brute_force(&strings, &only(&strings, triad));
            assert_eq!(found, expected, "{triad:?} in {}", tuning.id());
        }
    });
}

/// From any rung a climb leads to the highest shape of the neck, and down to the lowest; the
/// strings change where it says so.
#[test]
fn a_climb_has_no_dead_end() {
    let triads = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    for_every_tuning(|tuning| {
        let query = ShapeQuery::default().without_fingers();
        let ladder = Ladder::new(&Neck::new(tuning.clone()), triads, &query);
        for start in 0..ladder.rungs().len() {
            assert_eq!(
                end_of(&ladder, start, Way::Up),
                ladder.rungs().len() - 1,
                "{}",
                tuning.id()
            );
            assert_eq!(end_of(&ladder, start, Way::Down), 0, "{}", tuning.id());
        }
    });
}

fn end_of(ladder: &Ladder, start: usize, way: Way) -> usize {
    let set = |rung: usize| -> StringSet { ladder.rungs()[rung].shape.string_set() };
    let mut here = start;
    while let Some(step) = ladder.climb(here, way) {
        let goes_on = if way == Way::Up { step.rung > here } else { step.rung < here };
        assert!(goes_on);
        let changed = set(step.rung) != set(here);
        assert_eq!(step.changed_to, changed.then(|| set(step.rung)));
        here = step.rung;
    }
    here
}
