//! What a line of the program says of the pairs that its notes are of.

use std::collections::HashMap;

use fretloom_theory::{MadeNote, Note, Quarters, SpelledTriad, Triad, TriadPair, WhichTriad};
use serde::Deserialize;
use serde_json::value::RawValue;

use super::file::File;
use super::list::RawList;

/// A phrase, or what is played over a chord.
#[derive(Deserialize)]
struct RawPair<'a> {
    pair: Option<&'a str>,
    #[serde(default)]
    onset: f64,
}

/// What a note says of itself: the triad that it is of, in which group of which phrase.
#[derive(Deserialize)]
struct RawClaim<'a> {
    of: Option<&'a str>,
    phrase: Option<usize>,
    group: Option<usize>,
}

/// A pair from some moment on.
struct PairFrom {
    onset: Quarters,
    pair: TriadPair,
}

/// What the file says of each of its notes; empty where it names no phrases. What cannot be read says
/// nothing.
pub(super) fn made_of(file: &File<'_>, notes: &[Note]) -> Vec<Option<MadeNote>> {
    let mut names = Names::default();
    let phrases: Vec<Option<TriadPair>> = match file.phrases.and_then(list) {
        Some(phrases) => phrases.0.iter().map(|raw| Some(names.pair(raw)?.pair)).collect(),
        None => return Vec::new(),
    };
    let chords = file.scales.and_then(list).map(|scales| scales.0).unwrap_or_default();
    let mut chords: Vec<PairFrom> = chords.iter().filter_map(|raw| names.pair(raw)).collect();
    chords.sort_by_key(|chord| chord.onset);
    let mut made = |(raw, note): (&&RawValue, &Note)| {
        let claim: RawClaim<'_> = serde_json::from_str(raw.get()).ok()?;
        let (phrase, group) = (claim.phrase?.checked_sub(1)?, claim.group?);
        let triad = names.triad(claim.of?)?;
        let own = phrases.get(phrase).copied().flatten()?;
        let (pair, speaks) = match which(own, triad) {
            Some(_) => (own, note.onset()),
            None => landed(&chords, triad, note.onset())?,
        };
        Some(MadeNote { pair, which: which(pair, triad)?, phrase, group, speaks })
    };
    file.notes.0.iter().zip(notes).map(&mut made).collect()
}

fn list(raw: &RawValue) -> Option<RawList<'_>> {
    serde_json::from_str(raw.get()).ok()
}

/// The pair of the chord on which a phrase of another one lands, the one that sounds or the next, and
/// when that is spoken.
fn landed(chords: &[PairFrom], triad: Triad, onset: Quarters) -> Option<(TriadPair, Quarters)> {
    let after = chords.partition_point(|chord| chord.onset <= onset);
    let near = chords.get(after.saturating_sub(1)..)?.iter().take(2);
    let mut holding = near.filter(|chord| which(chord.pair, triad).is_some());
    holding.next().map(|chord| (chord.pair, chord.onset.max(onset)))
}

fn which(pair: TriadPair, triad: Triad) -> Option<WhichTriad> {
    WhichTriad::BOTH.into_iter().find(|which| which.triad_of(pair).set() == triad.set())
}

/// Names that were read; a line has few and says them often.
#[derive(Default)]
struct Names {
    triads: HashMap<String, Option<Triad>>,
}

impl Names {
    fn pair(&mut self, raw: &RawValue) -> Option<PairFrom> {
        let raw: RawPair<'_> = serde_json::from_str(raw.get()).ok()?;
        let (first, second) = raw.pair?.split_once(" & ")?;
        let pair = TriadPair::in_order(self.triad(first)?, self.triad(second)?)?;
        Some(PairFrom { onset: Quarters::nearest(raw.onset)?, pair })
    }

    fn triad(&mut self, name: &str) -> Option<Triad> {
        if let Some(known) = self.triads.get(name) {
            return *known;
        }
        let triad = name.parse::<SpelledTriad>().ok().map(|spelled| spelled.triad());
        self.triads.insert(name.to_owned(), triad);
        triad
    }
}
