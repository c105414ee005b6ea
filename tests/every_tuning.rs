//! What must hold on the neck of every built-in tuning, however it is strung.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

use std::cmp::Reverse;
use std::collections::BTreeMap;

use fretloom::library::LoadedTunings;
use fretloom_fretboard::{Ladder, Neck, ShapeQuery, StringSet, Tuning};
use fretloom_theory::Direction;
use fretloom_theory::{SpelledTriad, Triad, TriadPair, TriadQuality};

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

/// Three strings, in the order of their numbers: their notes.
type Three<'a> = [&'a [Note]; 3];

/// String numbers and frets of the shapes of each triad, by its index in the list of triads.
type Found = Vec<Vec<[(u8, u8); 3]>>;

/// The triads with the three classes of each, ascending.
fn triads_by_classes() -> BTreeMap<[i32; 3], Vec<usize>> {
    let mut by_classes: BTreeMap<[i32; 3], Vec<usize>> = BTreeMap::new();
    for (index, triad) in Triad::every(TriadQuality::TERTIAN).enumerate() {
        let mut classes = triad.members().map(|class| i32::from(class.number()));
        classes.sort_unstable();
        by_classes.entry(classes).or_default().push(index);
    }
    by_classes
}

/// All threes of places that sound three different notes within an octave, the higher string the
/// higher note, for whichever triad they make; strings in unison do not stand together. One pass
/// over the threes serves every triad.
fn by_brute_force(strings: Three<'_>, known: &BTreeMap<[i32; 3], Vec<usize>>, found: &mut Found) {
    let mut order = strings;
    order.sort_unstable_by_key(|notes| notes[0].2);
    let [low, middle, high] = order;
    if low[0].2 == middle[0].2 || middle[0].2 == high[0].2 {
        return;
    }
    for one in low {
        for two in middle.iter().filter(|note| is_above(one, note)) {
            for three in high.iter().filter(|note| is_above(two, note) && is_above(one, note)) {
                let mut classes = [one, two, three].map(|note| note.2.rem_euclid(12));
                classes.sort_unstable();
                let mut places = [one, two, three].map(|note| (note.0, note.1));
                places.sort_unstable_by_key(|place| Reverse(place.0));
                for triad in known.get(&classes).into_iter().flatten() {
                    found[*triad].push(places);
                }
            }
        }
    }
}

/// Higher, and by less than an octave.
fn is_above(low: &Note, high: &Note) -> bool {
    (1..12).contains(&(high.2 - low.2))
}

/// Every three strings, skipped ones between them or not.
fn threes(strings: &[Vec<Note>]) -> impl Iterator<Item = Three<'_>> {
    let indices = 0..strings.len();
    indices.flat_map(move |one| {
        (one + 1..strings.len()).flat_map(move |two| {
            let rest = strings.iter().skip(two + 1);
            rest.map(move |three| [&strings[one][..], &strings[two], three])
        })
    })
}

#[test]
fn close_shapes_are_those_of_brute_force() {
    let query = ShapeQuery::default().skipping_strings().without_fingers();
    let known = triads_by_classes();
    for_every_tuning(|tuning| {
        let (neck, strings) = (Neck::new(tuning.clone()), notes_by_string(tuning));
        let mut expected: Found = vec![Vec::new(); Triad::every(TriadQuality::TERTIAN).count()];
        threes(&strings).for_each(|three| by_brute_force(three, &known, &mut expected));
        for (triad, mut expected) in Triad::every(TriadQuality::TERTIAN).zip(expected) {
            let shapes = query.shapes(&neck, triad);
            let places = shapes.iter().map(|shape| {
                shape.places().map(|place| (place.string.number(), place.fret.number()))
            });
            let mut found: Vec<[(u8, u8); 3]> = places.collect();
            found.sort_unstable();
            expected.sort_unstable();
            assert_eq!(found, expected, "{triad:?} in {}", tuning.id());
        }
    });
}

/// From any rung a climb leads to the highest shape of the neck, and down to the lowest; the
/// strings change where it says so.
///
/// A step depends on the rung alone, and every step goes the way it should: so it is enough
/// that of all rungs only the last one that way has no step.
#[test]
fn a_climb_has_no_dead_end() {
    let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    let pair = TriadPair::in_order(f, g).unwrap();
    for_every_tuning(|tuning| {
        let query = ShapeQuery::default().without_fingers();
        let ladder = Ladder::new(&Neck::new(tuning.clone()), pair, &query);
        let last = ladder.rungs().len() - 1;
        for here in 0..=last {
            assert_eq!(goes_on(&ladder, here, Direction::Up), here != last, "{}", tuning.id());
            assert_eq!(goes_on(&ladder, here, Direction::Down), here != 0, "{}", tuning.id());
        }
    });
}

/// Is there a step from here? It must lead the right way, and say when it changes the strings.
fn goes_on(ladder: &Ladder, here: usize, direction: Direction) -> bool {
    let set = |rung: usize| -> StringSet { ladder.rungs()[rung].shape.string_set() };
    let Some(step) = ladder.climb(here, direction) else { return false };
    assert!(if direction == Direction::Up { step.rung > here } else { step.rung < here });
    let changed = set(step.rung) != set(here);
    assert_eq!(step.changed_to, changed.then(|| set(step.rung)));
    true
}
