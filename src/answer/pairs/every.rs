//! Every pair that exists, over no chord.

use std::fmt;

use fretloom_theory::{
    Chord, ChordScale, Families, Letter, NoteName, PitchClass, PitchClassSet, Scale, ScaleKind,
    SpelledTriad, Speller, Spelling, TriadPair, other_chords,
};

use super::named::NamedPair;
use super::six_notes::SixNotes;

/// The answer of `pairs --all`.
#[derive(Clone, PartialEq, Debug)]
pub struct EveryPairAnswer {
    /// The pairs, by quality and going up from C.
    pub pairs: Vec<PairAlone>,
}

/// Which pairs of triads exist?
#[must_use]
pub fn every_pair(families: &Families, spelling: Spelling) -> EveryPairAnswer {
    let on_c = Scale::new(NoteName::natural(Letter::C), ScaleKind::CHROMATIC);
    let speller = Speller::new(ChordScale::alone(on_c), spelling);
    let all = PitchClassSet::CHROMATIC;
    let pairs = TriadPair::within(all, families.qualities(), PitchClass::C);
    EveryPairAnswer { pairs: pairs.map(|pair| PairAlone::new(pair, &speller)).collect() }
}

/// A pair by itself. Over no chord it has no degrees, leaves nothing out, and states nothing.
#[derive(Clone, PartialEq, Debug)]
pub struct PairAlone {
    /// The pair.
    pub pair: TriadPair,
    /// Its name.
    pub name: NamedPair,
    /// Are both triads stacked in thirds where the twelve notes are named on C: C D♭ D E♭ E …?
    pub in_thirds: bool,
    /// Common chords that it serves.
    pub also_fits: Vec<Chord>,
    /// What its six notes are as a set.
    pub six_notes: SixNotes,
}

impl PairAlone {
    fn new(pair: TriadPair, speller: &Speller) -> PairAlone {
        let scale = speller.chord_scale().scale();
        PairAlone {
            pair,
            name: NamedPair::of(pair, speller.pair(pair)),
            in_thirds: pair.triads().into_iter().all(|triad| scale.spells(triad)),
            also_fits: other_chords(pair.set(), speller),
            six_notes: SixNotes::of(pair.set()),
        }
    }

    /// What it is, in one sentence that prints with signs (`{}`) or in ASCII (`{:#}`).
    #[must_use]
    pub const fn sentence(&self) -> impl fmt::Display {
        Sentence { name: self.name, pair: self.pair }
    }
}

/// `C major and D♭ major, roots 1 semitones apart, interleaving`
struct Sentence {
    name: NamedPair,
    pair: TriadPair,
}

impl fmt::Display for Sentence {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let apart = self.pair.first().root().semitones_up_to(self.pair.second().root());
        let [first, second] = self.name.names().map(Described);
        first.fmt(f)?;
        f.write_str(" and ")?;
        second.fmt(f)?;
        let relation = if self.pair.interleaves() { "interleaving" } else { "not interleaving" };
        write!(f, ", roots {apart} semitones apart, {relation}")
    }
}

/// `D♭ major`
struct Described(SpelledTriad);

impl fmt::Display for Described {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.root().fmt(f)?;
        write!(f, " {}", self.0.quality().word())
    }
}
