//! `pairs`

use fretloom_theory::{Chord as NamedChord, Degree, NoteName, Reason, SpelledTriad};
use serde::Serialize;

use super::AsJson;
use super::ascii::{self, Ascii};
use super::chord::Chord;
use super::scale::Scale;
use crate::answer::{
    EveryPairAnswer, LeftOut as Omitted, NamedPair, PairAlone, PairAnswer, PairsAnswer, SixNotes,
    TypedChord,
};

/// The answer; chord and scale are null where every pair that exists was asked for.
#[derive(Serialize)]
struct Pairs<'a, W: Serialize> {
    chord: Option<Chord<'a>>,
    scale: Option<Scale<'a>>,
    pairs: Vec<Pair<'a, W>>,
}

impl AsJson for PairsAnswer {
    fn as_json(&self) -> impl Serialize {
        Pairs {
            chord: self.harmony.chord().map(|chord: &TypedChord| Chord::new(chord)),
            scale: Some(Scale::new(self.harmony.scale())),
            pairs: self.pairs.iter().map(over_chord).collect(),
        }
    }
}

impl AsJson for EveryPairAnswer {
    fn as_json(&self) -> impl Serialize {
        let pairs = self.pairs.iter().zip(1..).map(|(pair, rank)| alone(pair, rank)).collect();
        Pairs { chord: None, scale: None, pairs }
    }
}

/// A pair, with its sentence as the last field.
#[derive(Serialize)]
struct Pair<'a, W: Serialize> {
    rank: usize,
    name: Ascii<NamedPair>,
    first: Triad,
    second: Triad,
    left_out: Vec<LeftOut>,
    states_root: bool,
    states_third: bool,
    states_seventh: bool,
    tensions: Vec<Ascii<&'a Degree>>,
    rubs: Vec<Ascii<&'a Degree>>,
    outside: Vec<Ascii<&'a NoteName>>,
    drops_named: Vec<Ascii<&'a Degree>>,
    in_thirds: bool,
    interleaves: bool,
    symmetry: &'a [u8],
    also_fits: Vec<Ascii<&'a NamedChord>>,
    forte: &'static str,
    prime_form: &'a [u8],
    prime_form_rahn: &'a [u8],
    interval_vector: [u8; 6],
    why: W,
}

fn over_chord(pair: &PairAnswer) -> Pair<'_, Ascii<&Reason>> {
    let (sound, SixNotes { symmetry, forte, prime_form, prime_form_rahn, interval_vector }) =
        (&pair.sound, &pair.six_notes);
    Pair {
        rank: pair.rank,
        name: Ascii(pair.name()),
        first: Triad::new(pair.first.name, &pair.first.degrees),
        second: Triad::new(pair.second.name, &pair.second.degrees),
        left_out: pair.left_out.iter().map(LeftOut::new).collect(),
        states_root: sound.states_root(),
        states_third: sound.states_third(),
        states_seventh: sound.states_seventh(),
        tensions: ascii::list(&pair.tensions),
        rubs: ascii::list(&pair.rubs),
        outside: ascii::list(&pair.outside),
        drops_named: ascii::list(&pair.drops_named),
        in_thirds: sound.in_thirds(),
        interleaves: sound.pair().interleaves(),
        symmetry,
        also_fits: ascii::list(&pair.also_fits),
        forte: forte.unwrap_or_default(),
        prime_form,
        prime_form_rahn,
        interval_vector: *interval_vector,
        why: Ascii(&pair.why),
    }
}

/// What a pair has over a chord only is empty or false.
fn alone(pair: &PairAlone, rank: usize) -> Pair<'_, Ascii<impl std::fmt::Display>> {
    let [first, second] = pair.name.names();
    let SixNotes { symmetry, forte, prime_form, prime_form_rahn, interval_vector } =
        &pair.six_notes;
    Pair {
        rank,
        name: Ascii(pair.name),
        first: Triad::new(first, &[]),
        second: Triad::new(second, &[]),
        left_out: Vec::new(),
        states_root: false,
        states_third: false,
        states_seventh: false,
        tensions: Vec::new(),
        rubs: Vec::new(),
        outside: Vec::new(),
        drops_named: Vec::new(),
        in_thirds: pair.in_thirds,
        interleaves: pair.pair.interleaves(),
        symmetry,
        also_fits: ascii::list(&pair.also_fits),
        forte: forte.unwrap_or_default(),
        prime_form,
        prime_form_rahn,
        interval_vector: *interval_vector,
        why: Ascii(pair.sentence()),
    }
}

#[derive(Serialize)]
struct Triad {
    root: Ascii<NoteName>,
    quality: &'static str,
    notes: Vec<Ascii<NoteName>>,
    degrees: Vec<Ascii<Degree>>,
}

impl Triad {
    fn new(triad: SpelledTriad, degrees: &[Degree]) -> Triad {
        Triad {
            root: Ascii(triad.root()),
            quality: triad.quality().word(),
            notes: ascii::list(triad.notes()),
            degrees: ascii::list(degrees.iter().copied()),
        }
    }
}

#[derive(Serialize)]
struct LeftOut {
    note: Ascii<NoteName>,
    degree: Ascii<Degree>,
}

impl LeftOut {
    fn new(omitted: &Omitted) -> LeftOut {
        LeftOut { note: Ascii(omitted.note), degree: Ascii(omitted.degree) }
    }
}
