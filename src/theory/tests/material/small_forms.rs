//! Small forms, and every plan for them: what each costs is worked out from the rules, without the
//! code of the search or its costs.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use fretloom_theory::{
    Chord, ChordScale, PairSound, Plan, PlanChord, PlanQuery, Reading, Scale, StretchBegins,
    TriadPair, TriadQuality,
};
use proptest::prelude::*;

/// How many cases are tried: these, or so many times as `FRETLOOM_PLANS` says.
pub(crate) fn cases(count: u32) -> ProptestConfig {
    let times: u32 = std::env::var("FRETLOOM_PLANS").map_or(1, |times| times.parse().unwrap());
    ProptestConfig::with_cases(count * times)
}

/// A chord of a small form: what the slow way knows of it.
#[derive(Clone, Debug)]
pub(crate) struct Small {
    pub(crate) reading: Reading,
    scale: Scale,
    quarters_of_a_bar: u32,
    begins: StretchBegins,
}

impl Small {
    pub(crate) fn asked(&self) -> PlanChord {
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
        let mut a_bar = 2.0 * rank as f64 + 220.0 * sound.rubs().len() as f64;
        let symbol = self.reading.chord().to_string();
        for degree in over.degrees(sound.drops_named()) {
            let any_will_do = symbol.contains("alt")
                && degree.alteration() != 0
                && matches!(degree.number(), 5 | 9 | 11 | 13);
            a_bar += match degree {
                free if matches!((free.number(), free.alteration()), (1 | 5, 0)) => 0.0,
                _ if any_will_do => 20.0,
                third if over.third() == Some(third.over(over.root().pitch_class())) => 540.0,
                _ => 240.0,
            };
        }
        let mut cost = a_bar * (0.3 + 0.7 * f64::from(self.quarters_of_a_bar) / 4.0);
        if !sound.states_third() && !sound.states_seventh() {
            cost += 2000.0;
        }
        if self.reading.is_home() {
            cost += 350.0 * sound.rubs().len() as f64;
            cost += if sound.states_third() { 0.0 } else { 2000.0 };
        }
        cost
    }
}

/// Are these the same notes in the same two triads?
pub(crate) fn same(one: TriadPair, other: TriadPair) -> bool {
    let sets = |pair: TriadPair| pair.triads().map(|triad| triad.set().bits());
    let ([a, b], [c, d]) = (sets(one), sets(other));
    (a, b) == (c, d) || (a, b) == (d, c)
}

/// What it costs to come from one pair to the next.
pub(crate) fn step(from: TriadPair, to: TriadPair, begins: StretchBegins) -> f64 {
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
        return 500.0;
    }
    let before = from.set();
    let new: Vec<_> = to.set().iter().filter(|note| !before.contains(*note)).collect();
    let reached = |note: &&fretloom_theory::PitchClass| {
        before.contains(note.up(1)) || before.contains(note.up(-1))
    };
    let glides = new.iter().filter(reached).count();
    1000.0 + 40.0 * new.len() as f64 + 20.0 * (new.len() - glides) as f64
}

/// Every plan with what it costs, the cheapest first. `places` tells where a pair lies, and `way` what
/// it costs to go from a place of one to a place of another.
pub(crate) fn all_plans(
    form: &[Small],
    places: impl Fn(TriadPair) -> usize,
    way: impl Fn((TriadPair, usize), (TriadPair, usize)) -> f64,
) -> Vec<(f64, Vec<TriadPair>)> {
    let spots = |chord: &Small| -> Vec<(TriadPair, usize, f64)> {
        let each = chord.pairs().into_iter();
        each.flat_map(|(pair, own)| (0..places(pair)).map(move |place| (pair, place, own)))
            .collect()
    };
    let choices: Vec<Vec<(TriadPair, usize, f64)>> = form.iter().map(spots).collect();
    let count: usize = choices.iter().map(Vec::len).product();
    let mut plans: Vec<(f64, Vec<TriadPair>)> = Vec::new();
    for mut number in 0..count {
        let mut picked = Vec::new();
        for spots in &choices {
            picked.push(spots[number % spots.len()]);
            number /= spots.len();
        }
        let mut cost = 0.0;
        for (index, (pair, place, own)) in picked.iter().enumerate() {
            let (before, from, _) = picked[(index + picked.len() - 1) % picked.len()];
            cost += own + step(before, *pair, form[index].begins);
            cost += way((before, from), (*pair, *place));
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
pub(crate) fn forms(chords: std::ops::RangeInclusive<usize>) -> impl Strategy<Value = Vec<Small>> {
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

pub(crate) fn query(form: &[Small]) -> PlanQuery {
    PlanQuery::over(form.iter().map(Small::asked))
}

pub(crate) fn thousandths(plan: &Plan) -> f64 {
    plan.cost().changes() * 1000.0
}

pub(crate) fn near(one: f64, other: f64) -> bool {
    // Costs are rounded down to a ten-thousandth of a change for each thing that counts.
    (one - other).abs() < 2.0
}
