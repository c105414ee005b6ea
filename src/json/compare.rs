//! `tunings compare`

use fretloom_fretboard::{StringNumber, StringSet};
use serde::Serialize;

use super::AsJson;
use super::ascii::Words;
use super::tunings::Tuning;
use crate::answer::{AloneAnswer, CompareAnswer, Compared, SetAnswer, Survival};

#[derive(Serialize)]
struct Compare<'a> {
    sets: Vec<Set<'a>>,
    alone: Vec<Alone<'a>>,
    a: Tuning<'a>,
    b: Tuning<'a>,
}

/// Strings run from the highest number to the lowest.
#[derive(Serialize)]
struct Set<'a> {
    a: Vec<u8>,
    b: Vec<u8>,
    shapes_survive: bool,
    only_inversions_change: bool,
    why: &'a str,
    a_steps: [i32; 2],
    b_steps: [i32; 2],
    grips_of: Vec<Vec<u8>>,
    ladder: Words<'a>,
}

impl<'a> Set<'a> {
    fn new(set: &'a SetAnswer) -> Set<'a> {
        let (shapes_survive, only_inversions_change) = match set.shapes {
            Survival::Survive => (true, false),
            Survival::OnlyInversionsChange => (false, true),
            Survival::Change => (false, false),
        };
        Set {
            a: numbers(set.a),
            b: numbers(set.b),
            shapes_survive,
            only_inversions_change,
            why: &set.why,
            a_steps: set.a_steps,
            b_steps: set.b_steps,
            grips_of: set.grips_of.iter().copied().map(numbers).collect(),
            ladder: Words(&set.ladder),
        }
    }
}

#[derive(Serialize)]
struct Alone<'a> {
    /// `a` or `b`
    tuning: &'static str,
    strings: Vec<u8>,
    steps: [i32; 2],
    why: &'a str,
}

impl<'a> Alone<'a> {
    fn new(alone: &'a AloneAnswer) -> Alone<'a> {
        let tuning = match alone.tuning {
            Compared::A => "a",
            Compared::B => "b",
        };
        let (strings, steps) = (numbers(alone.strings), alone.steps);
        Alone { tuning, strings, steps, why: &alone.why }
    }
}

fn numbers(set: StringSet) -> Vec<u8> {
    set.iter().map(StringNumber::number).collect()
}

impl AsJson for CompareAnswer {
    fn as_json(&self) -> impl Serialize {
        Compare {
            sets: self.sets.iter().map(Set::new).collect(),
            alone: self.alone.iter().map(Alone::new).collect(),
            a: Tuning::new(&self.a),
            b: Tuning::new(&self.b),
        }
    }
}
