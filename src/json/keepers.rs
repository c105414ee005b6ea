//! `keepers`

use fretloom_fretboard::{StringNumber, StringSet};
use jiff::civil::Date;
use serde::Serialize;

use super::AsJson;
use super::ascii::Words;
use crate::answer::{KeeperAnswer, KeepersAnswer};
use crate::store::{Beats, Keeper, TriedBy, Try};

#[derive(Serialize)]
struct Keepers<'a> {
    keepers: Vec<Kept<'a>>,
}

#[derive(Serialize)]
struct One<'a> {
    keeper: Kept<'a>,
}

#[derive(Serialize)]
pub(super) struct Kept<'a> {
    id: u32,
    /// Null where the file does not say it.
    kept: Option<String>,
    /// `pair`, `shape`, `ladder`, `line` or `plan`.
    what: &'static str,
    name: Option<&'a str>,
    chord: Option<Words<'a>>,
    scale: Option<Words<'a>>,
    pair: Option<Words<'a>>,
    /// Null where it takes whatever tuning is in use.
    tuning: Option<&'a str>,
    view: Option<&'a str>,
    strings: Option<Vec<u8>>,
    notes: &'a str,
    tags: &'a [String],
    tempo: Tempo,
    last: Option<String>,
    next: Option<String>,
    keys: Option<&'a str>,
    sets: Vec<Vec<u8>>,
    limits: Vec<&'static str>,
    tries: Vec<Tried>,
}

#[derive(Serialize)]
struct Tempo {
    start: Option<u16>,
    best: Option<u16>,
}

#[derive(Serialize)]
struct Tried {
    on: String,
    tempo: Option<u16>,
    verdict: &'static str,
    /// Semitones above the key in which it was kept.
    up: u8,
    strings: Option<Vec<u8>>,
    limit: Option<&'static str>,
    by_ear: bool,
    /// By ear `pair`, `qualities` or `left-out`; null where it was played.
    asked: Option<&'static str>,
    next: Option<String>,
}

impl<'a> Kept<'a> {
    pub(super) fn new(keeper: &'a Keeper) -> Kept<'a> {
        let (kept, practice) = (&keeper.kept, &keeper.practice);
        Kept {
            id: keeper.id.number(),
            kept: day(kept.on),
            what: kept.what.word(),
            name: keeper.name.as_deref(),
            chord: kept.chord.as_deref().map(Words),
            scale: kept.scale.as_deref().map(Words),
            pair: kept.pair.as_deref().map(Words),
            tuning: kept.tuning.as_ref().map(|tuning| tuning.id()),
            view: kept.view.as_deref(),
            strings: kept.strings.map(numbers),
            notes: &keeper.notes,
            tags: &keeper.tags,
            tempo: Tempo { start: beats(practice.start), best: beats(practice.best()) },
            last: day(practice.last()),
            next: day(practice.next()),
            keys: practice.keys.as_deref(),
            sets: practice.sets.iter().copied().map(numbers).collect(),
            limits: practice.limits.iter().map(|limit| limit.word()).collect(),
            tries: practice.tries.iter().map(Tried::new).collect(),
        }
    }
}

impl Tried {
    fn new(tried: &Try) -> Tried {
        let asked = match tried.unit.by {
            TriedBy::Hand => None,
            TriedBy::Ear(asked) => Some(asked.word()),
        };
        Tried {
            on: tried.on.to_string(),
            tempo: beats(tried.tempo),
            verdict: tried.verdict.word(),
            up: tried.unit.key.semitones(),
            strings: tried.unit.strings.map(numbers),
            limit: tried.unit.limit.map(|limit| limit.word()),
            by_ear: asked.is_some(),
            asked,
            next: day(tried.next),
        }
    }
}

/// `2026-05-04`
pub(super) fn day(day: Option<Date>) -> Option<String> {
    day.map(|day| day.to_string())
}

pub(super) fn numbers(set: StringSet) -> Vec<u8> {
    set.iter().map(StringNumber::number).collect()
}

fn beats(beats: Option<Beats>) -> Option<u16> {
    beats.map(Beats::a_minute)
}

impl AsJson for KeepersAnswer {
    fn as_json(&self) -> impl Serialize {
        Keepers { keepers: self.keepers.iter().map(Kept::new).collect() }
    }
}

impl AsJson for KeeperAnswer {
    fn as_json(&self) -> impl Serialize {
        One { keeper: Kept::new(&self.keeper) }
    }
}
