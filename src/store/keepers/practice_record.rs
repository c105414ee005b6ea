//! How a keeper is practised, and how that went.

use std::collections::BTreeMap;
use std::fmt;

use fretloom_fretboard::StringSet;
use jiff::civil::Date;

use super::asked::Asked;

/// A tempo to practise at: quarter notes a minute, 20 to 400.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Beats(u16);

impl Beats {
    /// The slowest.
    pub const SLOWEST: Beats = Beats(20);
    /// The fastest.
    pub const FASTEST: Beats = Beats(400);

    /// So many quarter notes a minute; `None` outside of 20 to 400.
    #[must_use]
    pub const fn new(a_minute: u16) -> Option<Beats> {
        if Beats::SLOWEST.0 <= a_minute && a_minute <= Beats::FASTEST.0 {
            Some(Beats(a_minute))
        } else {
            None
        }
    }

    /// Quarter notes a minute.
    #[must_use]
    pub const fn a_minute(self) -> u16 {
        self.0
    }

    /// So many quarter notes a minute faster, slower below zero, and never beyond what there is.
    #[must_use]
    pub fn faster(self, by: i16) -> Beats {
        let bounds = (Beats::SLOWEST.0, Beats::FASTEST.0);
        Beats(self.0.saturating_add_signed(by).clamp(bounds.0, bounds.1))
    }
}

impl fmt::Display for Beats {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// How a keeper is practised, and every try so far.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct PracticeRecord {
    /// Where it is clean; `None` for the usual tempo to begin with.
    pub start: Option<Beats>,
    /// The keys, by the words of `line --keys`, or `here` for its own alone; `None` for what is usual.
    pub keys: Option<String>,
    /// The string sets on which it is practised; empty for the one it was kept on.
    pub sets: Vec<StringSet>,
    /// Limits under which it is practised as well, each once.
    pub limits: Vec<Limit>,
    /// Every try, in the order in which they were made.
    pub tries: Vec<Try>,
}

impl PracticeRecord {
    /// The fastest tempo at which it was got; `None` where it never was.
    #[must_use]
    pub fn best(&self) -> Option<Beats> {
        let got = self.tries.iter().filter(|one| one.verdict == Verdict::Got);
        got.filter_map(|one| one.tempo).max()
    }

    /// The days on which it was got at a tempo, the first one first, each with the fastest.
    #[must_use]
    pub fn curve(&self) -> Vec<(Date, u16)> {
        let got = self.tries.iter().filter(|one| one.verdict == Verdict::Got);
        let mut days: BTreeMap<Date, u16> = BTreeMap::new();
        for (on, tempo) in got.filter_map(|one| Some((one.on, one.tempo?.a_minute()))) {
            let fastest = days.entry(on).or_default();
            *fastest = tempo.max(*fastest);
        }
        days.into_iter().collect()
    }

    /// The day on which it was played last.
    ///
    /// What is named by ear has days of its own: [`heard`](Self::heard).
    #[must_use]
    pub fn last(&self) -> Option<Date> {
        self.played().map(|one| one.on).max()
    }

    /// The day on which the first of all that was played is due again.
    ///
    /// What is tried is a [`Unit`]: of each the last try says when it comes back.
    #[must_use]
    pub fn next(&self) -> Option<Date> {
        let mut newest: Vec<&Try> = Vec::new();
        for one in self.played().rev() {
            if newest.iter().all(|newer| newer.unit != one.unit) {
                newest.push(one);
            }
        }
        newest.into_iter().filter_map(|one| one.next).min()
    }

    /// The tries with the hands, in the order in which they were made.
    pub fn played(&self) -> impl DoubleEndedIterator<Item = &Try> {
        self.tries.iter().filter(|one| one.unit.by == TriedBy::Hand)
    }

    /// The tries at one question by ear, in whatever key, in the order in which they were made.
    ///
    /// The ear knows a pair in every key once it knows it in one, so the keys share their days.
    pub fn heard(&self, asked: Asked) -> impl DoubleEndedIterator<Item = &Try> {
        self.tries.iter().filter(move |one| one.unit.by == TriedBy::Ear(asked))
    }

    /// The tries of one unit, in the order in which they were made.
    pub fn tries_of<'a>(&'a self, unit: &'a Unit) -> impl DoubleEndedIterator<Item = &'a Try> {
        self.tries.iter().filter(move |one| one.unit == *unit)
    }
}

/// One thing that is practised of a keeper: in one key, on one string set, under one limit or none,
/// with the hands or by ear.
#[derive(Clone, PartialEq, Eq, Hash, Debug, Default)]
pub struct Unit {
    /// In which key.
    pub key: KeyAway,
    /// On which strings; `None` for wherever it lies.
    pub strings: Option<StringSet>,
    /// Under which limit.
    pub limit: Option<Limit>,
    /// How it is tried.
    pub by: TriedBy,
}

/// A key by how far it lies above the one in which something was kept: 0 to 11 semitones.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct KeyAway(u8);

impl KeyAway {
    /// The key in which it was kept.
    pub const HERE: KeyAway = KeyAway(0);

    /// So many semitones up, octaves apart.
    #[must_use]
    pub const fn up(semitones: u8) -> KeyAway {
        KeyAway(semitones % 12)
    }

    /// Semitones up, 0 to 11.
    #[must_use]
    pub const fn semitones(self) -> u8 {
        self.0
    }
}

/// How something is tried.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum TriedBy {
    /// It is played.
    #[default]
    Hand,
    /// It is heard, and this is named.
    Ear(Asked),
}

/// A rule that makes a task narrower, for one chorus.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Limit {
    /// The hand stays in one position.
    OnePosition,
    /// Only one set of strings.
    OneStringSet,
    /// Every phrase is followed by a rest.
    RestsCompulsory,
}

impl Limit {
    /// All there are.
    pub const ALL: [Limit; 3] = [Limit::OnePosition, Limit::OneStringSet, Limit::RestsCompulsory];

    /// `one-position`, `one-string-set`, `rests-compulsory`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Limit::OnePosition => "one-position",
            Limit::OneStringSet => "one-string-set",
            Limit::RestsCompulsory => "rests-compulsory",
        }
    }

    /// The limit of that word.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Limit> {
        Limit::ALL.into_iter().find(|limit| limit.word() == word)
    }
}

impl fmt::Display for Limit {
    /// `one position for a chorus`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Limit::OnePosition => "one position for a chorus",
            Limit::OneStringSet => "one string set for a chorus",
            Limit::RestsCompulsory => "a rest after every phrase",
        })
    }
}

/// One try.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Try {
    /// The day.
    pub on: Date,
    /// What was tried.
    pub unit: Unit,
    /// How fast; `None` by ear, and where there was no click.
    pub tempo: Option<Beats>,
    /// How it went.
    pub verdict: Verdict,
    /// When it is due again.
    pub next: Option<Date>,
}

/// How a try went.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Verdict {
    /// It was clean.
    Got,
    /// It was not, and is to be tried again.
    Again,
}

impl Verdict {
    /// `got` or `again`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Verdict::Got => "got",
            Verdict::Again => "again",
        }
    }

    /// The verdict of that word.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Verdict> {
        [Verdict::Got, Verdict::Again].into_iter().find(|verdict| verdict.word() == word)
    }
}
