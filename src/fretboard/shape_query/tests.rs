//! The values are computed from open pitches, outside this code; common practice, no source.

use std::collections::BTreeSet;

use fretloom_theory::{Pitch, SpelledTriad, Triad, TriadQuality};

use super::*;
use crate::{Ease, Finger, Fret, HandPosition, OpenString, Place, SamePitches, Tuning};

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

fn banjo() -> Neck {
    let open = |note: &str| OpenString::new(note.parse().unwrap());
    let short = OpenString::starting_at(open("G4").note(), Fret::new(5).unwrap());
    let strings = vec![short, open("D3"), open("G3"), open("B3"), open("D4")];
    Neck::new(Tuning::new(strings, 22, 670.0).unwrap())
}

fn triad(name: &str) -> Triad {
    name.parse::<SpelledTriad>().unwrap().triad()
}

fn set(text: &str) -> StringSet {
    text.parse().unwrap()
}

fn frets(shape: &Shape) -> [u8; 3] {
    shape.frets().map(Fret::number)
}

fn relative(shape: &Shape) -> [u8; 3] {
    let frets = frets(shape);
    let lowest = frets.into_iter().min().unwrap();
    frets.map(|fret| fret - lowest)
}

/// The two steps between the open strings of a shape: what its grip depends on.
fn family(neck: &Neck, shape: &Shape) -> [i32; 2] {
    let [one, two, three] =
        shape.strings().map(|string| neck.tuning().string(string).unwrap().pitch());
    [one.semitones_up_to(two), two.semitones_up_to(three)]
}

#[test]
fn every_grip_of_every_set() {
    let rows = [
        ("6-5-4", "C", [[3, 2, 0], [2, 0, 0], [1, 1, 0]]),
        ("6-5-4", "Cm", [[3, 1, 0], [1, 0, 0], [2, 2, 0]]),
        ("6-5-4", "Cdim", [[4, 2, 0], [2, 0, 1], [1, 2, 0]]),
        ("6-5-4", "C+", [[2, 1, 0], [2, 1, 0], [2, 1, 0]]),
        ("5-4-3", "C", [[3, 2, 0], [2, 0, 0], [1, 1, 0]]),
        ("5-4-3", "Cm", [[3, 1, 0], [1, 0, 0], [2, 2, 0]]),
        ("5-4-3", "Cdim", [[4, 2, 0], [2, 0, 1], [1, 2, 0]]),
        ("5-4-3", "C+", [[2, 1, 0], [2, 1, 0], [2, 1, 0]]),
        ("4-3-2", "C", [[2, 1, 0], [2, 0, 1], [0, 0, 0]]),
        ("4-3-2", "Cm", [[2, 0, 0], [1, 0, 1], [1, 1, 0]]),
        ("4-3-2", "Cdim", [[3, 1, 0], [2, 0, 2], [0, 1, 0]]),
        ("4-3-2", "C+", [[1, 0, 0], [1, 0, 0], [1, 0, 0]]),
        ("3-2-1", "C", [[2, 2, 0], [1, 0, 0], [0, 1, 0]]),
        ("3-2-1", "Cm", [[2, 1, 0], [0, 0, 0], [1, 2, 0]]),
        ("3-2-1", "Cdim", [[3, 2, 0], [1, 0, 1], [0, 2, 0]]),
        ("3-2-1", "C+", [[1, 1, 0], [1, 1, 0], [1, 1, 0]]),
    ];
    let neck = neck("EADGBE");
    for (strings, name, grips) in rows {
        for (inversion, grip) in Inversion::ALL.into_iter().zip(grips) {
            let query = ShapeQuery::default().on(set(strings)).inverted(inversion);
            let shapes = query.shapes(&neck, triad(name));
            assert!(!shapes.is_empty());
            for shape in shapes {
                assert_eq!(relative(&shape), grip, "{name} {inversion} on {strings}");
            }
        }
    }
}

#[test]
fn the_lowest_places_of_c() {
    let neck = neck("EADGBE");
    for (strings, name, inversion, expected) in [
        ("6-5-4", "C", Inversion::Root, [8, 7, 5]),
        ("6-5-4", "C", Inversion::Second, [3, 3, 2]),
        ("6-5-4", "Cdim", Inversion::First, [11, 9, 10]),
        ("5-4-3", "C", Inversion::Root, [3, 2, 0]),
        ("5-4-3", "Cdim", Inversion::Root, [15, 13, 11]),
        ("4-3-2", "C", Inversion::First, [2, 0, 1]),
        ("4-3-2", "Cm", Inversion::First, [1, 0, 1]),
        ("4-3-2", "Cdim", Inversion::First, [13, 11, 13]),
        ("3-2-1", "C", Inversion::Second, [0, 1, 0]),
        ("3-2-1", "Cm", Inversion::Second, [12, 13, 11]),
        ("3-2-1", "Cdim", Inversion::Second, [11, 13, 11]),
    ] {
        let query = ShapeQuery::default().on(set(strings)).inverted(inversion);
        let lowest = query.shapes(&neck, triad(name))[0];
        assert_eq!(frets(&lowest), expected, "{name} {inversion} on {strings}");
    }
    let augmented = ShapeQuery::default().on(set("5-4-3")).shapes(&neck, triad("C+"));
    let low: Vec<[u8; 3]> = augmented.iter().take(3).map(frets).collect();
    assert_eq!(low, [[3, 2, 1], [7, 6, 5], [11, 10, 9]]);
    assert!(augmented.iter().all(Shape::by_name_only));
}

#[test]
fn standard_tuning_has_thirty_grips_all_fourths_ten_and_drop_d_forty() {
    for (tuning, grips) in [("EADGBE", 30), ("EADGCF", 10), ("DADGBE", 40)] {
        let neck = neck(tuning);
        let mut seen = BTreeSet::new();
        for triad in Triad::every(TriadQuality::TERTIAN) {
            for shape in ShapeQuery::default().shapes(&neck, triad) {
                seen.insert((family(&neck, &shape), relative(&shape)));
            }
        }
        assert_eq!(seen.len(), grips, "{tuning}");
    }
}

#[test]
fn semitones_of_open_triads() {
    use TriadQuality::{Augmented, Diminished, FlatFive, Major, Minor, Sus};
    for (quality, expected) in [
        (Major, [[0, 7, 16], [0, 8, 15], [0, 9, 17]]),
        (Minor, [[0, 7, 15], [0, 9, 16], [0, 8, 17]]),
        (Diminished, [[0, 6, 15], [0, 9, 15], [0, 9, 18]]),
        (Augmented, [[0, 8, 16]; 3]),
        (Sus, [[0, 7, 17], [0, 7, 14], [0, 10, 17]]),
        (FlatFive, [[0, 6, 16], [0, 8, 14], [0, 10, 18]]),
    ] {
        let one = |inversion| Voicing::Open.semitones(quality, inversion).next().unwrap();
        let open = Inversion::ALL.map(one);
        assert_eq!(open, expected, "{quality:?}");
    }
}

/// The span in frets of an open shape wherever none of its strings is open.
fn open_span(neck: &Neck, strings: StringSet, triad: Triad, inversion: Inversion) -> Option<u8> {
    let query = ShapeQuery::default().voiced(Voicing::Open).on(strings);
    let query = query.inverted(inversion).without_open_strings();
    let shapes = query.shapes(neck, triad);
    let span = |shape: &Shape| relative(shape).into_iter().max();
    shapes.first().and_then(span)
}

#[test]
fn comfortable_sets_of_open_major_triads() {
    let neck = neck("EADGBE");
    let rows: [(Inversion, &[(&str, u8)]); 3] = [
        (Inversion::Root, &[("6-5-3", 2), ("5-4-2", 2), ("4-3-1", 2), ("6-4-2", 3), ("5-3-1", 3)]),
        (
            Inversion::First,
            &[("6-4-3", 2), ("4-2-1", 2), ("6-5-3", 3), ("5-4-2", 3), ("4-3-1", 3), ("5-3-2", 3)],
        ),
        (Inversion::Second, &[("6-4-2", 2), ("5-3-1", 2), ("6-4-3", 3), ("4-2-1", 3)]),
    ];
    for (inversion, sets) in rows {
        for (strings, frets) in sets {
            let span = open_span(&neck, set(strings), triad("C"), inversion);
            assert_eq!(span, Some(*frets), "{inversion} on {strings}");
        }
    }
}

#[test]
fn no_open_triad_lies_within_four_frets_on_adjacent_strings() {
    let neck = neck("EADGBE");
    let query = ShapeQuery::default().voiced(Voicing::Open);
    for triad in Triad::every(TriadQuality::TERTIAN) {
        for shape in query.shapes(&neck, triad) {
            assert!(relative(&shape).into_iter().max() > Some(3), "{shape:?}");
        }
    }
}

/// Every close shape, found without thinking: all threes of places on a set.
fn by_brute_force(neck: &Neck, triad: Triad, strings: StringSet) -> Vec<[(Place, Pitch); 3]> {
    let [one, two, three] = strings.three().unwrap();
    let notes = |string| {
        let there = neck.places().filter(move |(place, pitch)| {
            place.string == string && triad.set().contains(pitch.pitch_class())
        });
        there.collect::<Vec<_>>()
    };
    let open = |place: Place| neck.tuning().string(place.string).unwrap().pitch();
    let mut found = Vec::new();
    for one in notes(one) {
        for two in notes(two) {
            for three in notes(three) {
                let grip = [one, two, three];
                let mut by_open = grip;
                by_open.sort_by_key(|(place, _)| open(*place));
                let [low, middle, high] = by_open;
                let strings_differ = open(low.0) < open(middle.0) && open(middle.0) < open(high.0);
                let rising = low.1 < middle.1 && middle.1 < high.1;
                let within_an_octave = low.1.semitones_up_to(high.1) < 12;
                if strings_differ && rising && within_an_octave {
                    found.push(grip);
                }
            }
        }
    }
    found
}

#[test]
fn enumeration_finds_what_brute_force_finds() {
    let unison = neck("E3 A3 A3 G4");
    for neck in [neck("EADGBE"), neck("GCEA"), neck("E3 A3 D4 G4 B3 E4"), banjo(), unison] {
        let strings = neck.tuning().string_count();
        for set in StringSet::every(strings, 3) {
            for triad in Triad::every(TriadQuality::TERTIAN) {
                let shapes = ShapeQuery::default().on(set).shapes(&neck, triad);
                let mut expected = by_brute_force(&neck, triad, set);
                assert_eq!(shapes.len(), expected.len(), "{triad:?} on {set}");
                expected.retain(|grip| !shapes.iter().any(|s| s.places() == grip.map(|n| n.0)));
                assert!(expected.is_empty(), "{triad:?} on {set}: {expected:?}");
            }
        }
    }
}

#[test]
fn every_shape_is_what_it_says() {
    let query = ShapeQuery::default().of_all_voicings().skipping_strings();
    for neck in [neck("EADGBE"), neck("GCEA"), banjo()] {
        for triad in Triad::every(TriadQuality::ALL) {
            for shape in query.shapes(&neck, triad) {
                for (place, pitch) in shape.places().into_iter().zip(shape.pitches()) {
                    assert_eq!(neck.pitch_at(place), Some(pitch));
                }
                let [low, middle, high] = shape.going_up();
                let above = [0, low.semitones_up_to(middle), low.semitones_up_to(high)];
                let mut semitones = shape.voicing().semitones(triad.quality(), shape.inversion());
                assert!(semitones.any(|semitones| semitones == above));
                let member = triad.members()[shape.inversion() as usize];
                assert_eq!(low.pitch_class(), member);
                let classes = shape.pitches().map(Pitch::pitch_class).into_iter();
                assert_eq!(classes.collect::<fretloom_theory::PitchClassSet>(), triad.set());
                assert!(shape.string_set().is_on(neck.tuning().string_count()));
            }
        }
    }
}

/// On a high-G ukulele string 4 sounds above 3 and 2.
#[test]
fn a_re_entrant_string_carries_the_highest_member() {
    let neck = neck("GCEA");
    let shapes = ShapeQuery::default().on(set("4-3-2")).shapes(&neck, triad("C"));
    let open = shapes.iter().find(|shape| frets(shape) == [0, 0, 0]).unwrap();
    assert_eq!(open.inversion(), Inversion::Root);
    assert_eq!(open.pitches().map(Pitch::midi), [67, 60, 64]);
    assert_eq!(open.position(), HandPosition::FIRST);
    assert_eq!(open.fingers(), Some([Finger::Open; 3]));
    assert_eq!(open.stretch_mm(), 0.0);
}

/// A law: twelve frets up on the same strings, the same triad lies again.
#[test]
fn shapes_repeat_at_the_octave() {
    for neck in [neck("EADGBE"), neck("GCEA"), neck("DADGAD"), banjo()] {
        let up_an_octave = |place: Place| {
            let start = neck.tuning().string(place.string).unwrap().starts_at();
            let from = if place.fret.is_open() { start } else { place.fret };
            let fret = Fret::new(from.number() + 12)?;
            (fret <= neck.tuning().last_fret()).then_some(Place { fret, ..place })
        };
        let query = ShapeQuery::default().of_both_voicings();
        for triad in Triad::every(TriadQuality::TERTIAN) {
            let shapes = query.shapes(&neck, triad);
            for shape in &shapes {
                let [Some(one), Some(two), Some(three)] = shape.places().map(up_an_octave) else {
                    continue;
                };
                let higher = shapes.iter().find(|s| s.places() == [one, two, three]);
                let higher = higher.unwrap();
                assert_eq!(higher.inversion(), shape.inversion());
                assert_eq!(higher.voicing(), shape.voicing());
            }
        }
    }
}

#[test]
fn wishes_filter_and_nothing_else_does() {
    let neck = neck("EADGBE");
    let all = ShapeQuery::default();
    let count = |query: ShapeQuery| query.shapes(&neck, triad("G")).len();
    let by_inversion = Inversion::ALL.map(|inversion| count(all.inverted(inversion)));
    assert_eq!(by_inversion.into_iter().sum::<usize>(), count(all));
    let both = count(all.voiced(Voicing::Open)) + count(all);
    assert_eq!(count(all.of_both_voicings()), both);
    assert_eq!(count(all.up_to_mm(1000.0)), count(all));
    let open = |shape: &&Shape| shape.frets().iter().any(|fret| fret.is_open());
    let with_open = all.shapes(&neck, triad("G")).iter().filter(open).count();
    assert!(with_open > 0);
    assert_eq!(count(all.without_open_strings()), count(all) - with_open);
    let within = all.within("1-12".parse().unwrap()).shapes(&neck, triad("G"));
    assert!(within.iter().all(|shape| frets(shape).iter().all(|f| (1..=12).contains(f))));
    for strings in ["7-6-5", "4-3"] {
        assert_eq!(count(all.on(set(strings))), 0, "{strings}");
    }
    let both_sets = count(all.on(set("4-3-2"))) + count(all.on(set("3-2-1")));
    assert_eq!(count(all.on(set("4-3-2-1"))), both_sets);
}

#[test]
fn close_triads_in_standard_tuning_all_have_fingers() {
    let neck = neck("EADGBE");
    for triad in Triad::every(TriadQuality::TERTIAN) {
        for shape in ShapeQuery::default().shapes(&neck, triad) {
            assert!(shape.fingers().is_some(), "{:?}", frets(&shape));
        }
    }
}

/// The same pitches elsewhere, found by hand: all threes of other places that sound alike.
#[test]
fn same_pitches_are_every_other_place_that_a_hand_can_hold() {
    for neck in [neck("EADGBE"), neck("GCEA"), neck("DADGAD"), banjo()] {
        let query = ShapeQuery::default().skipping_strings().of_both_voicings();
        for triad in [triad("C"), triad("F#m"), triad("E+")] {
            let shapes = query.shapes(&neck, triad);
            for shape in &shapes {
                let alike = shapes.iter().filter(|other| {
                    other.going_up() == shape.going_up()
                        && other.string_set() != shape.string_set()
                        && other.inversion() == shape.inversion()
                        && other.fingers().is_some()
                });
                let expected: BTreeSet<String> =
                    alike.map(|s| format!("{:?}", s.places())).collect();
                let found = shape.same_pitches(&neck, Hand::default());
                let places = |there: &SamePitches| format!("{:?}", there.shape.places());
                assert_eq!(found.iter().map(places).collect::<BTreeSet<_>>(), expected);
                assert!(found.is_sorted_by_key(|there| there.frets.unsigned_abs()));
            }
        }
    }
}

#[test]
fn a_shape_without_fingers_is_the_same_shape() {
    let neck = neck("EADGBE");
    let query = ShapeQuery::default();
    let bare = query.without_fingers().shapes(&neck, triad("G"));
    let fingered = query.shapes(&neck, triad("G"));
    assert_eq!(bare.len(), fingered.len());
    for (bare, fingered) in bare.iter().zip(&fingered) {
        assert_eq!((bare.places(), bare.inversion()), (fingered.places(), fingered.inversion()));
        assert_eq!(bare.fingers(), None);
    }
}

/// The smaller the hand, the wider the same shape.
#[test]
fn ease_is_measured_by_the_hand() {
    let neck = neck("EADGBE");
    let ease = |reach: f64, name: &str, wanted: [u8; 3]| {
        let query = ShapeQuery::default().for_hand(Hand::reaching_mm(reach).unwrap());
        let shapes = query.shapes(&neck, triad(name));
        shapes.iter().find(|shape| frets(shape) == wanted).unwrap().ease()
    };
    assert_eq!(ease(120.0, "F", [2, 1, 1]), Ease::Easy);
    assert_eq!(ease(120.0, "Adim", [5, 3, 1]), Ease::Wide);
    assert_eq!(ease(70.0, "Adim", [5, 3, 1]), Ease::Beyond);
    assert_eq!(ease(40.0, "F", [2, 1, 1]), Ease::Wide);
}

/// The sets of three strings on which shapes of G are found.
fn sets_of(query: ShapeQuery) -> Vec<String> {
    let shapes = query.shapes(&neck("EADGBE"), triad("G"));
    let mut sets: Vec<String> = shapes.iter().map(|s| s.string_set().to_string()).collect();
    sets.dedup();
    sets
}

#[test]
fn a_region_of_some_strings_holds_sets_of_its_neighbours() {
    let on = |strings: &str| ShapeQuery::default().on(strings.parse().unwrap());
    assert_eq!(sets_of(on("5-4-3-2")), ["4-3-2", "5-4-3"]);
    assert_eq!(sets_of(on("5-3-1")), ["5-3-1"]);
    assert_eq!(sets_of(on("6-4-3-1")), ["4-3-1", "6-4-3"]);
    assert_eq!(sets_of(on("6-4-3-1").skipping_strings()), ["4-3-1", "6-3-1", "6-4-1", "6-4-3"]);
    assert_eq!(sets_of(on("7-6-5-4")), ["6-5-4"]);
    assert!(sets_of(on("2-1")).is_empty() && sets_of(on("9-8-7")).is_empty());
}
