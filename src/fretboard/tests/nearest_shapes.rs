//! From the shape in hand to the nearest one of another pair.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use fretloom_fretboard::{Neck, Shape, ShapePlaces, ShapeQuery, StringSet, Tuning, VoiceMovement};
use fretloom_theory::{
    Chord, PitchClass, PitchClassSet, PlanChord, PlanQuery, Reading, SpelledTriad, TriadPair,
    TriadQuality,
};

fn neck() -> Neck {
    Neck::new(Tuning::read("E A D G B E").unwrap())
}

fn pair(first: &str, second: &str) -> TriadPair {
    let triad = |name: &str| name.parse::<SpelledTriad>().unwrap().triad();
    TriadPair::in_order(triad(first), triad(second)).unwrap()
}

fn frets(shape: &Shape) -> [u8; 3] {
    shape.frets().map(|fret| fret.number())
}

/// G & A over Em7, E♭ & C♯+ over A7alt, E & F♯m over Dmaj7 on strings 3-2-1; computed by hand from
/// the open strings, each voice along its string.
#[test]
fn three_pairs_follow_one_another_under_the_same_fingers() {
    let neck = neck();
    let places = ShapePlaces::new(&neck, ShapeQuery::default().on("3-2-1".parse().unwrap()));
    let pairs = [pair("G", "A"), pair("Eb", "C#+"), pair("E", "F#m")];
    for (line, moved) in [
        ([[7, 8, 7], [8, 8, 6], [9, 9, 7]], [[1, 0, -1], [1, 1, 1]]),
        ([[9, 10, 9], [10, 10, 9], [11, 10, 9]], [[1, 0, 0], [1, 0, 0]]),
    ] {
        let shapes = places.shapes(pairs[0]);
        let mut here = *shapes.iter().find(|shape| frets(shape) == line[0]).unwrap();
        for (index, voices) in moved.into_iter().enumerate() {
            let there = places.nearest(&here, pairs[index + 1]).unwrap();
            assert_eq!(frets(&there), line[index + 1], "after {:?}", frets(&here));
            let movement = VoiceMovement::between(&neck, &here, &there);
            assert_eq!(movement.voices().map(|voice| voice.frets()), voices);
            here = there;
        }
    }
}

/// Every couple of pairs on every string set: the way between their nearest shapes is the least of
/// the ways between all places on these strings that sound three members, found by trying them all
/// with the distances of the frets written out. Some couples are tried; `FRETLOOM_NEAREST=whole` tries all.
#[test]
fn the_nearest_shape_is_the_nearest_of_all() {
    let neck = neck();
    // Open strings from string 6 to string 1, and 648 mm of scale length.
    let open = [40_i32, 45, 50, 55, 59, 64];
    let mm = |fret: i32| 648.0 * (1.0 - 2_f64.powf(f64::from(-fret) / 12.0));
    let way = |from: [i32; 3], to: [i32; 3]| {
        let voice = |(from, to): (i32, i32)| (mm(to) - mm(from)).abs();
        from.into_iter().zip(to).map(voice).fold(0.0, f64::max)
    };
    let all: Vec<TriadPair> =
        TriadPair::within(PitchClassSet::CHROMATIC, TriadQuality::TERTIAN, PitchClass::C).collect();
    let whole = std::env::var_os("FRETLOOM_NEAREST").is_some_and(|wish| wish == "whole");
    let [each_from, each_to, each_shape] = if whole { [1, 1, 1] } else { [29, 37, 3] };
    for lowest in 0..4 {
        let strings: StringSet =
            format!("{}-{}-{}", 6 - lowest, 5 - lowest, 4 - lowest).parse().unwrap();
        let places = ShapePlaces::new(&neck, ShapeQuery::default().on(strings));
        // A close triad rises along the strings within an octave.
        let grips = |pair: TriadPair| -> Vec<[i32; 3]> {
            let mut grips = Vec::new();
            for triad in pair.triads() {
                let sounds = |string: usize, fret: i32| open[lowest + string] + fret;
                let holds = |pitch: i32| triad.set().contains(PitchClass::new(pitch));
                for (a, b, c) in (0..=22)
                    .flat_map(|a| (0..=22).flat_map(move |b| (0..=22).map(move |c| (a, b, c))))
                {
                    let [x, y, z] = [sounds(0, a), sounds(1, b), sounds(2, c)];
                    let other = |one: i32, two: i32| (one - two) % 12 != 0;
                    if x < y
                        && y < z
                        && z - x < 12
                        && holds(x)
                        && holds(y)
                        && holds(z)
                        && other(x, y)
                        && other(y, z)
                        && other(x, z)
                    {
                        grips.push([a, b, c]);
                    }
                }
            }
            grips
        };
        let to: Vec<(TriadPair, Vec<[i32; 3]>)> =
            all.iter().step_by(each_to).map(|to| (*to, grips(*to))).collect();
        for from in all.iter().step_by(each_from) {
            let from_shapes = places.shapes(*from);
            for (to, to_grips) in &to {
                for here in from_shapes.iter().step_by(each_shape) {
                    let there = places.nearest(here, *to).unwrap();
                    let as_numbers = |shape: &Shape| frets(shape).map(i32::from);
                    let found = way(as_numbers(here), as_numbers(&there));
                    let least = to_grips.iter().map(|grip| way(as_numbers(here), *grip));
                    let least = least.fold(f64::INFINITY, f64::min);
                    assert!((found - least).abs() < 1e-6, "{strings} {here:?} {there:?}");
                }
            }
        }
    }
}

/// Where nothing keeps the hand from it, a plan stays where players do: among the first twelve frets, and
/// on strings that are near.
#[test]
fn a_free_hand_stays_low_and_near_its_strings() {
    let neck = neck();
    let chords: Vec<Chord> =
        ["Dm7", "G7", "Cmaj7", "A7alt"].iter().map(|symbol| symbol.parse().unwrap()).collect();
    let form: Vec<PlanChord> =
        Reading::tune(&chords, None).into_iter().map(|it| PlanChord::of(it, 1.0)).collect();
    for strings in ["4-3-2", "6-5-4-3-2-1"] {
        let query = ShapeQuery::default().on(strings.parse().unwrap());
        let places = ShapePlaces::new(&neck, query);
        let plan = PlanQuery::over(form.clone()).plans_within(&places, 1).unwrap().remove(0);
        let shapes: Vec<Shape> = plan
            .chords()
            .iter()
            .map(|chord| places.shape(chord.pair(), chord.place().unwrap()).unwrap())
            .collect();
        let found: Vec<[u8; 3]> = shapes.iter().map(frets).collect();
        assert!(found.as_flattened().iter().all(|fret| *fret <= 13), "{strings}: {found:?}");
        let steps = shapes.windows(2).map(|two| VoiceMovement::between(&neck, &two[0], &two[1]));
        let mut voices = steps.flat_map(|step| step.voices());
        assert!(voices.all(|voice| voice.strings() <= 1), "{strings}: {found:?}");
    }
}
