//! Plans are the cheapest there are: every plan of a small form is tried, and what each costs is
//! worked out here from the rules, without the code of the search or its costs.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use fretloom_theory::{
    Chord, ChordScale, PairPlaces, PairSound, Plan, PlanChord, PlanCost, PlanQuery, Reading, Scale,
    StretchBegins, TriadPair, TriadQuality,
};
use proptest::prelude::*;

/// A chord of a small form: what the slow way knows of it.
#[derive(Clone, Debug)]
struct Small {
    reading: Reading,
    scale: Scale,
    quarters_of_a_bar: u32,
    begins: StretchBegins,
}

impl Small {
    fn asked(&self) -> PlanChord {
        PlanChord::of(self.reading.clone(), f64::from(self.quarters_of_a_bar) / 4.0)
            .in_scale(self.scale.clone())
            .beginning(self.begins)
    }

    /// Each pair of the scale, with what it costs in thousandths of a change.
    fn pairs(&self) -> Vec<(TriadPair, f64)> {
        let over = ChordScale::over(self.reading.chord().clone(), self.scale.clone());
        let sounds = PairSound::ranked(&over, TriadQuality::TERTIAN);
        let cost =
            |(rank, sound): (usize, &PairSound)| (sound.pair(), self.cost(&over, rank, sound));
        sounds.iter().enumerate().map(cost).collect()
    }

    fn cost(&self, over: &ChordScale, rank: usize, sound: &PairSound) -> f64 {
        let mut a_bar = 2.0 * rank as f64 + 230.0 * sound.rubs().len() as f64;
        let symbol = self.reading.chord().to_string();
        for degree in over.degrees(sound.drops_named()) {
            let any_will_do = symbol.contains("alt")
                && degree.alteration() != 0
                && matches!(degree.number(), 5 | 9 | 11 | 13);
            a_bar += match degree {
                free if matches!((free.number(), free.alteration()), (1 | 5, 0)) => 0.0,
                _ if any_will_do => 20.0,
                third if over.third() == Some(third.over(over.root().pitch_class())) => 470.0,
                _ => 150.0,
            };
        }
        let mut cost = a_bar * (0.3 + 0.7 * f64::from(self.quarters_of_a_bar) / 4.0);
        if !sound.states_third() && !sound.states_seventh() {
            cost += 2000.0;
        }
        if self.reading.is_home() {
            cost += 100.0 * sound.rubs().len() as f64;
            cost += if sound.states_third() { 0.0 } else { 2000.0 };
        }
        cost
    }
}

/// Are these the same notes in the same two triads?
fn same(one: TriadPair, other: TriadPair) -> bool {
    let sets = |pair: TriadPair| pair.triads().map(|triad| triad.set().bits());
    let ([a, b], [c, d]) = (sets(one), sets(other));
    (a, b) == (c, d) || (a, b) == (d, c)
}

/// What it costs to come from one pair to the next.
fn step(from: TriadPair, to: TriadPair, begins: StretchBegins) -> f64 {
    let more = begins == StretchBegins::More;
    if same(from, to) {
        return if more { 1200.0 } else { 0.0 };
    }
    if more {
        return 0.0;
    }
    let moved = |by: i32| {
        let [a, b] = from.triads().map(|triad| triad.up(by));
        same(TriadPair::in_order(a, b).unwrap(), to)
    };
    if [-2, -1, 1, 2].into_iter().any(moved) {
        return 450.0;
    }
    let before = from.set();
    let new: Vec<_> = to.set().iter().filter(|note| !before.contains(*note)).collect();
    let reached = |note: &&fretloom_theory::PitchClass| {
        before.contains(note.up(1)) || before.contains(note.up(-1))
    };
    let glides = new.iter().filter(reached).count();
    1000.0 + 40.0 * new.len() as f64 + 20.0 * (new.len() - glides) as f64
}

/// Every plan with what it costs, the cheapest first; one for each line of pairs.
fn all_plans(
    form: &[Small],
    way: impl Fn(TriadPair, usize, TriadPair, usize) -> f64,
    places: usize,
) -> Vec<(f64, Vec<TriadPair>)> {
    let choices: Vec<Vec<(TriadPair, f64)>> = form.iter().map(Small::pairs).collect();
    let sizes: Vec<usize> = choices.iter().map(|pairs| pairs.len() * places).collect();
    let count: usize = sizes.iter().product();
    let mut plans: Vec<(f64, Vec<TriadPair>)> = Vec::new();
    for mut number in 0..count {
        let mut picked = Vec::new();
        for (chord, size) in sizes.iter().enumerate() {
            let (pair, own) = choices[chord][number % size / places];
            picked.push((pair, number % size % places, own));
            number /= size;
        }
        let mut cost = 0.0;
        for (index, (pair, place, own)) in picked.iter().enumerate() {
            let (before, from, _) = picked[(index + picked.len() - 1) % picked.len()];
            cost +=
                own + step(before, *pair, form[index].begins) + way(before, from, *pair, *place);
        }
        plans.push((cost, picked.into_iter().map(|(pair, ..)| pair).collect()));
    }
    plans.sort_by(|one, other| one.0.total_cmp(&other.0));
    plans
}

const SYMBOLS: [&str; 14] = [
    "m7", "7", "maj7", "m7b5", "7alt", "6", "m6", "7sus4", "9", "13", "maj7#11", "m", "7b9b13",
    "m9",
];
const ROOTS: [&str; 12] = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];

/// A form of so many chords, each in one of the scales that are usual there.
fn forms(chords: std::ops::RangeInclusive<usize>) -> impl Strategy<Value = Vec<Small>> {
    let chord = (0..ROOTS.len(), 0..SYMBOLS.len(), 0..3_usize, 1..=8_u32, 0..6_u8);
    prop::collection::vec(chord, chords).prop_map(|drawn| {
        let symbols =
            drawn.iter().map(|(root, kind, ..)| format!("{}{}", ROOTS[*root], SYMBOLS[*kind]));
        let chords: Vec<Chord> = symbols.map(|symbol| symbol.parse().unwrap()).collect();
        let readings = Reading::tune(&chords, None);
        let small = |(reading, (_, _, scale, length, begins)): (
            Reading,
            (usize, usize, usize, u32, u8),
        )| {
            let seven = |scale: &Scale| scale.kind().degrees().len() == 7;
            let scales = reading.scales();
            let scales = scales.iter().map(|choice| choice.scale().clone()).filter(seven);
            let scale = scales.cycle().nth(scale).unwrap();
            let begins = if begins == 0 { StretchBegins::More } else { StretchBegins::Chord };
            Small { reading, scale, quarters_of_a_bar: length, begins }
        };
        readings.into_iter().zip(drawn).map(small).collect()
    })
}

fn query(form: &[Small]) -> PlanQuery {
    PlanQuery::over(form.iter().map(Small::asked))
}

fn thousandths(plan: &Plan) -> f64 {
    plan.cost().changes() * 1000.0
}

fn near(one: f64, other: f64) -> bool {
    // Costs are rounded down to a ten-thousandth of a change for each thing that counts.
    (one - other).abs() < 2.0
}

/// Places without sense, so that no rule of the fretboard is shared: any way may cost anything.
struct Scattered;

fn scattered(from: TriadPair, at: usize, to: TriadPair, place: usize) -> u32 {
    let number =
        |pair: TriadPair, place: usize| u32::from(pair.set().bits()) * 7 + place as u32 * 131;
    number(from, at).wrapping_mul(2_654_435_761).wrapping_add(number(to, place) * 40_503) >> 7
        & 0x3ff
}

impl PairPlaces for Scattered {
    fn count(&self, _: TriadPair) -> usize {
        2
    }

    fn way(&self, (from, at): (TriadPair, usize), (to, place): (TriadPair, usize)) -> PlanCost {
        PlanCost::thousandths(scattered(from, at, to, place))
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn the_cheapest_of_all_plans_is_found(form in forms(1..=4)) {
        let plans = all_plans(&form, |_, _, _, _| 0.0, 1);
        let plan = query(&form).plan().unwrap();
        prop_assert!(near(thousandths(&plan), plans[0].0), "{} {}", thousandths(&plan), plans[0].0);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_next_cheapest_are_all_there(form in forms(2..=3)) {
        let plans = all_plans(&form, |_, _, _, _| 0.0, 1);
        let found = query(&form).plans(8).unwrap();
        prop_assert_eq!(found.len(), 8);
        for (plan, (cost, _)) in found.iter().zip(&plans) {
            prop_assert!(near(thousandths(plan), *cost), "{} {}", thousandths(plan), cost);
        }
        for (index, plan) in found.iter().enumerate() {
            prop_assert!(found[..index].iter().all(|known| plan.differences(known) > 0));
        }
    }

    #[test]
    fn the_cheapest_of_all_plans_with_places_is_found(form in forms(2..=3)) {
        let way = |from, at, to, place| f64::from(scattered(from, at, to, place));
        let plans = all_plans(&form, way, 2);
        let found = query(&form).plans_within(&Scattered, 1).unwrap();
        prop_assert!(near(thousandths(&found[0]), plans[0].0));
    }
}
