//! Plans with a place for every chord: the cheapest of all there are on small forms, and over whole
//! tunes far less to move than for whoever takes the first pair of every chord.
//!
//! `cargo test -p fretloom-fretboard --test plans_in_hand -- --nocapture` prints what was measured.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "the functions of a test are a test too, and one prints what it measured"
)]

#[path = "../../theory/tests/material/small_forms.rs"]
mod small_forms;
#[path = "../../theory/tests/material/tunes.rs"]
mod tunes;

use fretloom_fretboard::{Neck, Shape, ShapePlaces, ShapeQuery, Tuning};
use fretloom_theory::{
    BarText, ChordScale, Meter, OptionalChords, PairPlaces, PairSound, PlanChord, PlanQuery,
    SpelledTriad, TriadPair, TriadQuality,
};
use proptest::prelude::*;
use small_forms::{all_plans, cases, forms, near, query, thousandths};
use tunes::{PROGRESSIONS, TUNES, without_functions};

fn neck() -> Neck {
    Neck::new(Tuning::read("E A D G B E").unwrap())
}

fn region(strings: &str, frets: &str) -> ShapeQuery {
    ShapeQuery::default().on(strings.parse().unwrap()).within(frets.parse().unwrap())
}

/// Where the voices of a shape lie along a neck of 648 mm, from its frets alone.
fn lying(shape: &Shape) -> [f64; 3] {
    shape.frets().map(|fret| 648.0 * (1.0 - 2_f64.powf(-f64::from(fret.number()) / 12.0)))
}

/// The longest way of a voice between two shapes on the same strings.
fn longest(from: [f64; 3], to: [f64; 3]) -> f64 {
    from.into_iter().zip(to).map(|(from, to)| (from - to).abs()).fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(cases(2000))]

    /// The form is closed with the hand where it began, so the state holds the place. A millimetre costs
    /// twelve thousandths of a change.
    #[test]
    fn under_a_locked_hand_the_cheapest_of_all_plans_is_found(
        form in forms(2..=3),
        lowest in 1..=7_u8,
    ) {
        let neck = neck();
        let places = ShapePlaces::new(&neck, region("4-3-2", &format!("{lowest}-{}", lowest + 3)));
        let lies = |(pair, place): (TriadPair, usize)| lying(&places.shape(pair, place).unwrap());
        let way = |from, to| (longest(lies(from), lies(to)) * 12.0).round();
        let plans = all_plans(&form, |pair| places.shapes(pair).len(), way);
        match query(&form).plans_within(&places, 1) {
            Ok(found) => prop_assert!(
                near(thousandths(&found[0]), plans[0].0),
                "{} {}", thousandths(&found[0]), plans[0].0
            ),
            Err(_) => prop_assert!(plans.is_empty()),
        }
    }
}

/// How far the hand goes in a round: at each change the way of the voice that goes furthest.
#[derive(Clone, Copy, Default, Debug)]
struct Moved {
    all: f64,
    largest: f64,
}

fn round(shapes: &[[f64; 3]]) -> Moved {
    let ends = shapes.iter().skip(1).chain(shapes.first());
    let ways: Vec<f64> = shapes.iter().zip(ends).map(|(from, to)| longest(*from, *to)).collect();
    Moved { all: ways.iter().sum(), largest: ways.iter().copied().fold(0.0, f64::max) }
}

fn chords(text: &str) -> Vec<PlanChord> {
    let text = BarText::read(text, Meter::COMMON).unwrap();
    let chords = PlanChord::of_chorus(&text.unfolded(OptionalChords::Played), None);
    chords.into_iter().map(|(_, chord)| chord).collect()
}

/// The first pair of each chord's first scale, played from shape to nearest shape, from whichever shape
/// of the first pair that is least to move.
fn first_pairs(form: &[PlanChord], places: &ShapePlaces<'_>) -> Moved {
    let pair = |chord: &PlanChord| {
        let scale = chord.reading().scales()[0].scale().clone();
        let over = ChordScale::over(chord.reading().chord().clone(), scale);
        PairSound::ranked(&over, TriadQuality::TERTIAN)[0].pair()
    };
    let lie = |pair| -> Vec<[f64; 3]> { places.shapes(pair).iter().map(lying).collect() };
    let each: Vec<Vec<[f64; 3]>> = form.iter().map(|chord| lie(pair(chord))).collect();
    let from = |start: [f64; 3]| {
        let mut way = vec![start];
        for shapes in each.iter().skip(1) {
            let here = way[way.len() - 1];
            let nearest = shapes
                .iter()
                .min_by(|one, other| longest(here, **one).total_cmp(&longest(here, **other)));
            way.extend(nearest);
        }
        round(&way)
    };
    let rounds = each[0].iter().map(|start| from(*start));
    rounds.min_by(|one, other| one.all.total_cmp(&other.all)).unwrap()
}

fn planned(form: &[PlanChord], places: &ShapePlaces<'_>) -> Moved {
    let plan = PlanQuery::over(form.to_vec()).plans_within(places, 1).unwrap().remove(0);
    let lies = |chord: &fretloom_theory::PlannedChord| {
        lying(&places.shape(chord.pair(), chord.place().unwrap()).unwrap())
    };
    round(&plan.chords().iter().map(lies).collect::<Vec<_>>())
}

/// On strings 4-3-2 between frets 5 and 10.
#[test]
fn a_locked_hand_moves_less_than_half_as_far_as_from_first_pair_to_first_pair() {
    let neck = neck();
    let places = ShapePlaces::new(&neck, region("4-3-2", "5-10"));
    let (mut firsts, mut plans) = (Moved::default(), Moved::default());
    println!("all ways and the largest at a change, in mm: first pairs | plan");
    let tunes = TUNES.iter().map(|tune| without_functions(tune));
    for text in PROGRESSIONS.iter().map(|text| (*text).to_owned()).chain(tunes) {
        let form = chords(&text);
        let [first, plan] = [first_pairs(&form, &places), planned(&form, &places)];
        let start: String = text.chars().take(40).collect();
        let row = |moved: Moved| format!("{:6.0} {:4.0}", moved.all, moved.largest);
        println!("{start:42} {} | {}", row(first), row(plan));
        for (sum, moved) in [(&mut firsts, first), (&mut plans, plan)] {
            sum.all += moved.all;
            sum.largest = sum.largest.max(moved.largest);
        }
    }
    println!("{:.3} {firsts:?} {plans:?}", plans.all / firsts.all);
    assert!(plans.all <= 0.45 * firsts.all, "{firsts:?} {plans:?}");
    assert!(plans.largest <= firsts.largest, "{firsts:?} {plans:?}");
}

/// The climb of F & G on strings 4-3-2 has six shapes before it comes again twelve frets up, by hand; what
/// the player holds is tried beside them.
#[test]
fn a_plan_tries_each_grip_once_and_what_is_wanted() {
    let neck = neck();
    let triad = |name: &str| name.parse::<SpelledTriad>().unwrap().triad();
    let pair = TriadPair::in_order(triad("F"), triad("G")).unwrap();
    let tried = |places: &ShapePlaces<'_>| -> Vec<[u8; 3]> {
        let shapes = (0..places.count(pair)).map(|place| places.shape(pair, place).unwrap());
        shapes.map(|shape| shape.frets().map(|fret| fret.number())).collect()
    };
    let low = [[0, 0, 0], [3, 2, 1], [5, 4, 3], [7, 5, 6], [9, 7, 8], [10, 10, 10]];
    let places = ShapePlaces::new(&neck, region("4-3-2", "0-22"));
    assert_eq!(tried(&places), low);
    let high = places.shapes(pair)[7].places();
    assert_eq!(high.map(|place| place.fret.number()), [15, 14, 13]);
    assert_eq!(tried(&places.trying([high])), [&low[..], &[[15, 14, 13]]].concat());
}

/// Over a whole neck a pair has many shapes. They leave room for as many pairs as a small part of it does,
/// so that a plan there costs no more, but for the way of the hand.
#[test]
fn the_whole_neck_costs_a_plan_little_more_than_a_part_of_it() {
    let neck = neck();
    for text in PROGRESSIONS {
        let cost = |strings, frets| {
            let places = ShapePlaces::new(&neck, region(strings, frets));
            let plans = PlanQuery::over(chords(text)).plans_within(&places, 1).unwrap();
            thousandths(&plans[0])
        };
        let part = cost("4-3-2", "1-12");
        for strings in ["4-3-2", "6-5-4-3-2-1"] {
            let whole = cost(strings, "0-22");
            assert!(whole <= 1.2 * part, "{strings}: {whole} beside {part}, {text}");
        }
    }
}
