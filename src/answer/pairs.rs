//! The pairs of a chord or a scale, ranked, with what each says.

mod list;

use std::fmt;

use fretloom_theory::{
    Chord, ChordScale, Degree, Fold, Merit, NoteName, PitchClassSet, Reason, Sound, SpelledTriad,
    Speller, Spelling, Triad, TriadPair, also_serves, forte_name, interval_vector, prime_form,
    prime_form_rahn, transposition_symmetries,
};
use serde::Serialize;

pub use list::PairList;

use super::{ChordAnswer, FORMAT, Families, Moment, Refusal, ScaleAnswer, Wishes, ascii};
use crate::glyphs::to_ascii;

/// The answer of `pairs`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct PairsAnswer {
    format: u32,
    /// The chord; none for a scale by itself.
    pub chord: Option<ChordAnswer>,
    /// The scale; none where every pair there is was asked for.
    pub scale: Option<ScaleAnswer>,
    /// The pairs, the first one first.
    pub pairs: PairList,
    /// The same list folded: in a symmetric scale most pairs are another one moved.
    #[serde(skip)]
    pub folds: Vec<Fold>,
}

/// One pair and what it says over the chord of the moment.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct PairAnswer {
    /// Its place in the list, from 1.
    pub rank: usize,
    /// Its name in ASCII, as in `F & G`.
    pub name: String,
    /// The triad whose root comes first going up.
    pub first: TriadAnswer,
    /// The other.
    pub second: TriadAnswer,
    /// The notes of the scale that it leaves out.
    pub left_out: Vec<LeftOut>,
    /// Does it hold the root?
    pub states_root: bool,
    /// The third, or what stands in its place?
    pub states_third: bool,
    /// The seventh, or the sixth?
    pub states_seventh: bool,
    /// Its ninths, elevenths and thirteenths.
    #[serde(serialize_with = "ascii::list")]
    pub tensions: Vec<Degree>,
    /// What rubs against the chord.
    #[serde(serialize_with = "ascii::list")]
    pub rubs: Vec<Degree>,
    /// Its notes outside the scale.
    #[serde(serialize_with = "ascii::list")]
    pub outside: Vec<NoteName>,
    /// Degrees that the symbol names and the pair leaves out.
    #[serde(serialize_with = "ascii::list")]
    pub drops_named: Vec<Degree>,
    /// Does the scale spell both triads in thirds?
    pub in_thirds: bool,
    /// Do the two alternate going up?
    pub interleaves: bool,
    /// Semitones by which its six notes can be moved and stay themselves.
    pub symmetry: Vec<u8>,
    /// Other common chords that it serves.
    #[serde(serialize_with = "ascii::list")]
    pub also_fits: Vec<Chord>,
    /// The Forte name of its six notes.
    pub forte: &'static str,
    /// Their prime form after Forte.
    pub prime_form: Vec<u8>,
    /// Their prime form after Rahn.
    pub prime_form_rahn: Vec<u8>,
    /// Their interval-class vector.
    pub interval_vector: [u8; 6],
    /// Why it stands where it does, in one sentence.
    #[serde(serialize_with = "ascii::one")]
    pub why: Sentence,
    /// What counts for and against it, the weightiest first.
    #[serde(skip)]
    pub merits: Vec<Merit>,
    /// The pair itself.
    #[serde(skip)]
    pub pair: TriadPair,
}

/// A sentence on a pair, which prints in both notations.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sentence(About);

#[derive(Clone, PartialEq, Eq, Debug)]
enum About {
    /// What it says over a chord.
    Heard(Reason),
    /// What it is by itself.
    Alone(String),
}

impl fmt::Display for Sentence {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.0 {
            About::Heard(reason) => reason.fmt(f),
            About::Alone(text) if f.alternate() => f.write_str(&to_ascii(text)),
            About::Alone(text) => f.write_str(text),
        }
    }
}

/// One triad of a pair.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TriadAnswer {
    /// Its name and notes for people.
    #[serde(skip)]
    pub name: SpelledTriad,
    /// Its root.
    #[serde(serialize_with = "ascii::one")]
    pub root: NoteName,
    /// Its quality.
    pub quality: &'static str,
    /// Its notes, root first.
    #[serde(serialize_with = "ascii::list")]
    pub notes: [NoteName; 3],
    /// What each is over the chord.
    #[serde(serialize_with = "ascii::list")]
    pub degrees: Vec<Degree>,
}

impl TriadAnswer {
    fn new(triad: Triad, speller: &Speller) -> TriadAnswer {
        let name = speller.triad(triad);
        let degree = |note: NoteName| speller.ground().degree(note.pitch_class());
        TriadAnswer {
            name,
            root: name.root(),
            quality: triad.quality().word(),
            notes: name.notes(),
            degrees: name.notes().map(degree).to_vec(),
        }
    }
}

/// A note that a pair leaves out.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct LeftOut {
    /// Its name.
    #[serde(serialize_with = "ascii::one")]
    pub note: NoteName,
    /// What it is over the chord.
    #[serde(serialize_with = "ascii::one")]
    pub degree: Degree,
}

/// Which pairs does the moment's scale hold, and what does each say?
#[must_use]
pub fn pairs_over(
    moment: &Moment,
    families: &Families,
    wishes: &Wishes,
    spelling: Spelling,
) -> PairsAnswer {
    let ground = moment.ground();
    let mut sounds = Sound::ranked(ground, families.qualities());
    sounds.retain(|sound| wishes.allow(sound.pair().set(), ground));
    PairsAnswer {
        folds: Fold::all(&sounds, ground.scale().set()),
        format: FORMAT,
        chord: moment.chord().map(|(symbol, read)| ChordAnswer::new(symbol, read)),
        scale: Some(ScaleAnswer::of(moment)),
        pairs: PairList::ranked(moment.speller(spelling), sounds),
    }
}

/// What does one pair of the player's own say? Its notes may lie outside the scale.
///
/// # Errors
///
/// Where the triads share a note.
pub fn pair_over(
    moment: &Moment,
    triads: [SpelledTriad; 2],
    spelling: Spelling,
) -> Result<PairAnswer, Refusal> {
    let ground = moment.ground();
    let speller = moment.speller(spelling);
    let [one, other] = triads.map(|triad| triad.triad());
    match TriadPair::new(one, other, ground.root().pitch_class()) {
        Some(pair) => Ok(answer(&Sound::of(pair, ground), 1, &speller)),
        None => Err(Refusal::shared_notes(triads)),
    }
}

/// The answer of `pairs --pair`: one pair of the player's own.
///
/// # Errors
///
/// Where the triads share a note.
pub fn one_pair(
    moment: &Moment,
    triads: [SpelledTriad; 2],
    spelling: Spelling,
) -> Result<PairsAnswer, Refusal> {
    let pair = pair_over(moment, triads, spelling)?;
    Ok(PairsAnswer {
        format: FORMAT,
        chord: moment.chord().map(|(symbol, read)| ChordAnswer::new(symbol, read)),
        scale: Some(ScaleAnswer::of(moment)),
        folds: vec![Fold { first: 0, copies: Vec::new() }],
        pairs: PairList::from_iter([pair]),
    })
}

/// Every pair that exists, over no chord: names, notes and kinds only.
#[must_use]
pub fn every_pair(families: &Families, spelling: Spelling) -> PairsAnswer {
    // The parse cannot fail; were the table ever without a chromatic scale, the list is empty.
    let moment = Moment::of_scale("C chromatic");
    let pairs = moment.map(|moment| {
        let speller = moment.speller(spelling);
        let root = moment.ground().root().pitch_class();
        let all = TriadPair::within(PitchClassSet::CHROMATIC, families.qualities(), root);
        all.zip(1..).map(|(pair, rank)| without_ground(pair, rank, &speller)).collect()
    });
    let pairs: PairList = pairs.unwrap_or_else(|_| PairList::from_iter([]));
    let folds = (0..pairs.len()).map(|first| Fold { first, copies: Vec::new() }).collect();
    PairsAnswer { format: FORMAT, chord: None, scale: None, pairs, folds }
}

fn without_ground(pair: TriadPair, rank: usize, speller: &Speller) -> PairAnswer {
    let mut answer = answer(&Sound::of(pair, speller.ground()), rank, speller);
    let [first, second] = [&mut answer.first, &mut answer.second].map(|triad| {
        triad.degrees.clear();
        format!("{} {}", triad.root, triad.quality)
    });
    let apart = pair.first().root().semitones_up_to(pair.second().root());
    let relation = if pair.interleaves() { "interleaving" } else { "not interleaving" };
    let apart = format!("roots {apart} semitones apart");
    answer.why = Sentence(About::Alone(format!("{first} and {second}, {apart}, {relation}")));
    answer.left_out.clear();
    (answer.states_root, answer.states_third, answer.states_seventh) = (false, false, false);
    answer
}

fn answer(sound: &Sound, rank: usize, speller: &Speller) -> PairAnswer {
    let ground: &ChordScale = speller.ground();
    let pair = sound.pair();
    let set = pair.set();
    let up = |set: PitchClassSet| set.going_up_from(ground.root().pitch_class());
    let [first, second] = pair.triads().map(|triad| TriadAnswer::new(triad, speller));
    PairAnswer {
        rank,
        name: format!("{:#} & {:#}", first.name, second.name),
        first,
        second,
        left_out: up(sound.left_out())
            .map(|class| LeftOut { note: speller.note(class), degree: ground.degree(class) })
            .collect(),
        states_root: sound.states_root(),
        states_third: sound.states_third(),
        states_seventh: sound.states_seventh(),
        tensions: ground.degrees(set).filter(|d| matches!(d.number(), 9 | 11 | 13)).collect(),
        rubs: ground.degrees(sound.rubs()).collect(),
        outside: up(sound.outside()).map(|class| speller.note(class)).collect(),
        drops_named: ground.degrees(sound.drops_named()).collect(),
        in_thirds: sound.in_thirds(),
        interleaves: pair.interleaves(),
        symmetry: transposition_symmetries(set).collect(),
        also_fits: also_serves(set, speller),
        forte: forte_name(set).unwrap_or_default(),
        prime_form: prime_form(set),
        prime_form_rahn: prime_form_rahn(set),
        interval_vector: interval_vector(set),
        why: Sentence(About::Heard(sound.reason(ground))),
        merits: sound.merits().to_vec(),
        pair,
    }
}
