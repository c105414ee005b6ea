//! A note of a line, with what it is.

use fretloom_theory::{
    Degree, NamedPitch, NoteName, Phrase, PhraseNote, Quarters, Role, SpelledTriad, Speller,
    Target, WhichTriad,
};

use super::chords::{LineChord, LineChords};
use crate::answer::pairs::NamedPair;

/// A note of a line, with what it is.
#[derive(Clone, PartialEq, Debug)]
pub struct ToldNote {
    /// The note, and where it comes from.
    pub note: PhraseNote,
    /// What it is called.
    pub name: NoteName,
    /// What it is over the chord that it speaks.
    pub degree: Degree,
    /// The triad that it belongs to; none for a free note.
    pub triad: Option<SpelledTriad>,
    /// The bar lines over which it is tied.
    pub ties: Vec<Quarters>,
}

impl ToldNote {
    /// Its name with its octave.
    #[must_use]
    pub fn named_pitch(&self) -> NamedPitch {
        let pitch = self.note.pitch;
        NamedPitch::called(self.name, pitch).unwrap_or_else(|| NamedPitch::everyday(pitch))
    }
}

/// Tells notes: what they are over the chords.
pub(super) struct Teller<'a> {
    chords: &'a LineChords,
    phrases: &'a [Phrase],
    /// One for each chord.
    spellers: Vec<Speller>,
    /// One for each phrase.
    pairs: Vec<Option<NamedPair>>,
}

impl<'a> Teller<'a> {
    pub(super) fn new(chords: &'a LineChords, phrases: &'a [Phrase]) -> Teller<'a> {
        let spellers = chords.chords().iter().map(LineChord::speller).collect();
        let pair = |phrase: &Phrase| Some(chords.at(phrase.from)?.named(phrase.pair));
        let pairs = phrases.iter().map(pair).collect();
        Teller { chords, phrases, spellers, pairs }
    }

    pub(super) fn told(&self, note: PhraseNote) -> Option<ToldNote> {
        let phrase = self.phrases.get(note.phrase)?;
        let landing = phrase.lands_at(note.onset);
        let spoken = self.index_at(landing.unwrap_or(note.onset));
        // A note of the pair is named by its phrase, also after the next chord has begun.
        let pair = match landing {
            Some(_) => self.chords.chords().get(spoken)?.pair,
            None => self.pairs.get(note.phrase).copied().flatten()?,
        };
        let triad = triad_of(pair, note.role);
        let class = note.pitch.pitch_class();
        let member = triad.and_then(|triad| triad.member(class)).map(|(_, name)| name);
        let name = member.or_else(|| Some(self.spellers.get(spoken)?.note(class)))?;
        let degree = self.chords.chords().get(spoken)?.over.degree(class);
        let ties = bar_lines_in(self.chords, &note);
        Some(ToldNote { note, name, degree, triad, ties })
    }

    fn index_at(&self, moment: Quarters) -> usize {
        let after = self.chords.chords().partition_point(|chord| chord.from <= moment);
        after.saturating_sub(1)
    }
}

/// When the target of its phrase should come, where a note is what is aimed at.
pub(super) fn landing_of(phrase: &Phrase, note: &PhraseNote) -> Option<Quarters> {
    let is_aimed_at = |target: Target| target.notes.contains(note.pitch.pitch_class());
    phrase.lands_at(note.onset).filter(|_| phrase.target.is_some_and(is_aimed_at))
}

fn triad_of(pair: NamedPair, role: Role) -> Option<SpelledTriad> {
    let [first, second] = pair.names();
    match role {
        Role::Triad(which) => match which {
            WhichTriad::First => Some(first),
            WhichTriad::Second => Some(second),
        },
        Role::Free => None,
    }
}

/// The bar lines within a note.
fn bar_lines_in(chords: &LineChords, note: &PhraseNote) -> Vec<Quarters> {
    let bars = chords.bars();
    let first = bars.at(note.onset).map_or(0, |at| at.index + 1);
    let lines = (first..).map_while(|index| bars.bar(index)).map(|bar| bar.from);
    lines.take_while(|line| *line < note.end()).collect()
}
