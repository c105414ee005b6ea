//! One pair over a chord and its scale.

use fretloom_theory::{
    Chord, Degree, NoteName, PairSound, PitchClassSet, Reason, SpelledTriad, Speller, TriadPair,
    other_chords,
};

use super::named::NamedPair;
use super::six_notes::SixNotes;

/// One pair, and what it says over the chord.
#[derive(Clone, PartialEq, Debug)]
pub struct PairAnswer {
    /// Its place in the list, from 1.
    pub rank: usize,
    /// The triad whose root comes first going up.
    pub first: TriadAnswer,
    /// The other.
    pub second: TriadAnswer,
    /// What it states, and what counts for and against it.
    pub sound: PairSound,
    /// The notes of the scale that it leaves out, going up from the chord's root.
    pub left_out: Vec<LeftOut>,
    /// Its ninths, elevenths and thirteenths.
    pub tensions: Vec<Degree>,
    /// What rubs against the chord.
    pub rubs: Vec<Degree>,
    /// Its notes outside the scale.
    pub outside: Vec<NoteName>,
    /// Degrees that the symbol names and the pair leaves out.
    pub drops_named: Vec<Degree>,
    /// Other common chords that it serves.
    pub also_fits: Vec<Chord>,
    /// What its six notes are as a set.
    pub six_notes: SixNotes,
    /// Why it stands where it does, in one sentence.
    pub why: Reason,
}

impl PairAnswer {
    pub(super) fn new(sound: &PairSound, rank: usize, speller: &Speller) -> PairAnswer {
        let (over, set) = (speller.chord_scale(), sound.pair().set());
        let up = |set: PitchClassSet| set.going_up_from(over.root().pitch_class());
        let [first, second] =
            speller.pair(sound.pair()).map(|name| TriadAnswer::new(name, speller));
        PairAnswer {
            rank,
            first,
            second,
            sound: sound.clone(),
            left_out: left_out(sound, speller),
            tensions: over.degrees(set).filter(|d| matches!(d.number(), 9 | 11 | 13)).collect(),
            rubs: over.degrees(sound.rubs()).collect(),
            outside: up(sound.outside()).map(|class| speller.note(class)).collect(),
            drops_named: over.degrees(sound.drops_named()).collect(),
            also_fits: other_chords(set, speller),
            six_notes: SixNotes::of(set),
            why: sound.reason(over),
        }
    }

    /// The pair.
    #[must_use]
    pub fn pair(&self) -> TriadPair {
        self.sound.pair()
    }

    /// The names of its triads, the first one first.
    #[must_use]
    pub fn name(&self) -> NamedPair {
        NamedPair::of(self.pair(), [self.first.name, self.second.name])
    }

    /// `the triads take turns going up · set 6-33, interval vector 143241`
    #[must_use]
    pub fn as_a_set(&self) -> String {
        let interleaves = self.sound.pair().interleaves();
        let relation = if interleaves {
            "going up, the notes of the two triads take turns"
        } else {
            "going up, the notes of the two triads do not take turns"
        };
        let vector: String = self.six_notes.interval_vector.map(|count| count.to_string()).concat();
        let forte = self.six_notes.forte.unwrap_or_default();
        format!("{relation} · set {forte}, interval vector {vector}")
    }
}

/// One triad of a pair.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TriadAnswer {
    /// The triad under its name.
    pub name: SpelledTriad,
    /// What each of its notes is over the chord, root first.
    pub degrees: [Degree; 3],
}

impl TriadAnswer {
    fn new(name: SpelledTriad, speller: &Speller) -> TriadAnswer {
        let degree = |note: NoteName| speller.chord_scale().degree(note.pitch_class());
        TriadAnswer { name, degrees: name.notes().map(degree) }
    }
}

/// A note that a pair leaves out.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LeftOut {
    /// Its name.
    pub note: NoteName,
    /// What it is over the chord.
    pub degree: Degree,
}

/// The notes of the scale that a pair leaves out, going up from the chord's root.
pub(in crate::answer) fn left_out(sound: &PairSound, speller: &Speller) -> Vec<LeftOut> {
    let over = speller.chord_scale();
    let note = |class| LeftOut { note: speller.note(class), degree: over.degree(class) };
    sound.left_out().going_up_from(over.root().pitch_class()).map(note).collect()
}
