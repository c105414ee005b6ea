//! The key that each chord of a tune is at home in.
//!
//! Every chord is more or less at home in every key, every step between chords speaks for some, and
//! to change the key costs. A chord's home is the key of the cheapest way through all of them. Where
//! several are as cheap the steps to and from the chord decide, and where they do not either there is none.

use super::home::{Home, Mode};
use super::kind::Kind;
use super::motion::up_to;
use crate::{Chord, Key, PitchClass};

/// How far a chord is from home, in tenths; 0 is its tonic.
type Distance = i32;

/// A chord that is foreign to a key.
const FOREIGN: Distance = 25;
/// Another key that has little to do with the last one.
const OTHER_KEY: Distance = 22;
/// The relative key.
const RELATIVE: Distance = 12;
/// The same tonic in another mode.
const PARALLEL: Distance = 14;
/// To begin in another key than the tune's.
const BEGINS_ELSEWHERE: Distance = 30;
/// Each chord in another key than the tune's.
const ELSEWHERE: Distance = 2;

/// How many homes there are.
const HOMES: usize = 36;

type Distances = [Distance; HOMES];

/// The home of each chord, no two neighbours of which are the same; `key` is that of the tune.
pub(super) fn homes(chords: &[&Chord], key: Option<Key>) -> Vec<Option<Home>> {
    let own: Vec<Distances> = chords.iter().map(|chord| own_distances(chord, key)).collect();
    let until = swept(chords, &own, key);
    let from = swept_back(chords, &own);
    let heard = chords.iter().enumerate().map(|(index, chord)| {
        let whole = |home: usize| until[index][home] + from[index][home];
        let spoken = |home: usize| steps_about(chords, index, home);
        let rank = |home: usize| (whole(home), spoken(home));
        let best = (0..HOMES).min_by_key(|home| rank(*home))?;
        let is_rival = |home: usize| !is_one_key(home, best) && rank(home) == rank(best);
        let rival = (0..HOMES).any(is_rival);
        let (tonic, mode) = named(best);
        (!rival).then(|| Home::on(tonic, mode, chord, key))
    });
    // One chord by itself says nothing of its key.
    let says = chords.len() > 1 || key.is_some();
    heard.map(|home| home.filter(|_| says)).collect()
}

fn named(home: usize) -> (PitchClass, Mode) {
    (PitchClass::new((home % 12) as i32), Mode::ALL[home / 12])
}

/// Are both homes in one key? A blues is in its major key.
fn is_one_key(one: usize, other: usize) -> bool {
    let ((tonic, mode), (other, other_mode)) = (named(one), named(other));
    tonic == other && (mode == Mode::Minor) == (other_mode == Mode::Minor)
}

fn degree(home: usize, chord: &Chord) -> u8 {
    named(home).0.semitones_up_to(chord.root().pitch_class())
}

fn own_distances(chord: &Chord, key: Option<Key>) -> Distances {
    let kind = Kind::of(chord);
    std::array::from_fn(|home| {
        let elsewhere = key.is_some_and(|key| !is_of(key, home));
        distance(named(home).1, degree(home, chord), kind) + i32::from(elsewhere) * ELSEWHERE
    })
}

/// Is a home the key of the tune?
fn is_of(key: Key, home: usize) -> bool {
    let (tonic, mode) = named(home);
    key.tonic().pitch_class() == tonic && key.is_minor() == (mode == Mode::Minor)
}

/// The least that leads to each chord in each home, the chord with it.
fn swept(chords: &[&Chord], own: &[Distances], key: Option<Key>) -> Vec<Distances> {
    let begins = |home: usize| match key {
        Some(key) if !is_of(key, home) => BEGINS_ELSEWHERE,
        _ => 0,
    };
    let mut all: Vec<Distances> = Vec::with_capacity(own.len());
    for (index, own) in own.iter().enumerate() {
        let reached = |home: usize| match index.checked_sub(1) {
            Some(before) => {
                let stays = all[before][home] + step(home, [chords[before], chords[index]]);
                let comes = (0..HOMES).map(|from| all[before][from] + change(from, home)).min();
                comes.map_or(stays, |comes| comes.min(stays))
            }
            None => begins(home),
        };
        let here: Distances = std::array::from_fn(|home| reached(home) + own[home]);
        all.push(here);
    }
    all
}

/// The least that follows each chord in each home, the chord without.
fn swept_back(chords: &[&Chord], own: &[Distances]) -> Vec<Distances> {
    let mut all = vec![[0; HOMES]; own.len()];
    for index in (1..own.len()).rev() {
        let next: Distances = std::array::from_fn(|home| all[index][home] + own[index][home]);
        all[index - 1] = std::array::from_fn(|home| {
            let stays = next[home] + step(home, [chords[index - 1], chords[index]]);
            let goes = (0..HOMES).map(|to| next[to] + change(home, to)).min();
            goes.map_or(stays, |goes| goes.min(stays))
        });
    }
    all
}

fn change(from: usize, to: usize) -> Distance {
    let ((tonic, mode), (next, next_mode)) = (named(from), named(to));
    match (mode, next_mode, tonic.semitones_up_to(next)) {
        (_, _, 0) => PARALLEL,
        (Mode::Major, Mode::Minor, 9) | (Mode::Minor, Mode::Major, 3) => RELATIVE,
        _ => OTHER_KEY,
    }
}

/// What the steps to a chord and from it say for a home.
fn steps_about(chords: &[&Chord], index: usize, home: usize) -> Distance {
    let said = |pair: &[&Chord]| match pair {
        [chord, next] => step(home, [*chord, *next]),
        _ => 0,
    };
    let about = chords.get(index.saturating_sub(1)..chords.len().min(index + 2));
    about.map_or(0, |about| about.windows(2).map(said).sum())
}

/// What a step between two chords says for a home: the more, the more negative.
fn step(home: usize, [chord, next]: [&Chord; 2]) -> Distance {
    if up_to(chord, next) == 0 {
        return 0;
    }
    let spoken = |chord: &Chord| (degree(home, chord), Kind::of(chord));
    match named(home).1 {
        Mode::Major => step_in_major(spoken(chord), spoken(next)),
        Mode::Minor => step_in_minor(spoken(chord), spoken(next)),
        Mode::Blues => step_in_blues(spoken(chord), spoken(next)),
    }
}

fn step_in_major(chord: (u8, Kind), next: (u8, Kind)) -> Distance {
    match (chord, next) {
        ((7, Kind::Dominant), (0, Kind::Major)) => -12,
        ((1, Kind::Dominant), (0, Kind::Major)) => -8,
        ((10, Kind::Dominant), (0, Kind::Major)) | ((2, Kind::Minor), (7, Kind::Dominant)) => -6,
        ((5, Kind::Minor | Kind::TonicMinor), (0, Kind::Major))
        | ((2, Kind::HalfDiminished), (7, Kind::Dominant)) => -3,
        ((7, Kind::Major), (0, Kind::Major)) => -4,
        ((5, Kind::Major), (0, Kind::Major)) | ((7, Kind::Dominant), (4 | 9, Kind::Minor)) => -2,
        _ => 0,
    }
}

fn step_in_minor(chord: (u8, Kind), next: (u8, Kind)) -> Distance {
    match (chord, next) {
        ((7, Kind::Dominant), (0, Kind::Minor | Kind::TonicMinor)) => -10,
        ((2, Kind::HalfDiminished), (7, Kind::Dominant)) => -7,
        ((11, Kind::Diminished) | (1, Kind::Dominant), (0, Kind::Minor | Kind::TonicMinor)) => -6,
        ((8, Kind::Dominant), (7, Kind::Dominant)) => -4,
        ((5, Kind::Minor | Kind::TonicMinor), (0, Kind::Minor | Kind::TonicMinor)) => -3,
        ((2, Kind::Minor), (7, Kind::Dominant)) => -1,
        _ => 0,
    }
}

fn step_in_blues(chord: (u8, Kind), next: (u8, Kind)) -> Distance {
    match (chord, next) {
        ((5, Kind::Dominant), (0, Kind::Dominant)) => -12,
        ((6, Kind::Diminished), (0, Kind::Dominant)) => -8,
        ((2, Kind::Minor), (7, Kind::Dominant)) => -5,
        ((7, Kind::Dominant), (0, Kind::Dominant)) => -4,
        ((0, Kind::Dominant), (7, Kind::Dominant)) => -3,
        _ => 0,
    }
}

/// How far a chord is from home by its degree, in semitones above the tonic, and its kind.
fn distance(mode: Mode, degree: u8, kind: Kind) -> Distance {
    if kind == Kind::Open {
        return 5;
    }
    let rows = match mode {
        Mode::Major => MAJOR,
        Mode::Minor => MINOR,
        Mode::Blues => BLUES,
    };
    let row = rows.iter().find(|row| (row.0, row.1) == (degree, kind));
    row.map_or(FOREIGN, |row| row.2)
}

type Row = (u8, Kind, Distance);

#[rustfmt::skip]
const MAJOR: &[Row] = &[
    (0, Kind::Major, 0), (0, Kind::Dominant, 9), (0, Kind::Minor, 18), (0, Kind::Diminished, 8),
    (0, Kind::TonicMinor, 20),
    (1, Kind::Dominant, 9), (1, Kind::Major, 14), (1, Kind::Diminished, 8),
    (2, Kind::Minor, 3), (2, Kind::TonicMinor, 12), (2, Kind::HalfDiminished, 14),
    (2, Kind::Dominant, 10),
    (3, Kind::Diminished, 8), (3, Kind::Dominant, 13), (3, Kind::Major, 15), (3, Kind::Minor, 14),
    (4, Kind::Minor, 6), (4, Kind::Dominant, 12), (4, Kind::HalfDiminished, 12),
    (5, Kind::Major, 4), (5, Kind::Dominant, 12), (5, Kind::Minor, 10), (5, Kind::TonicMinor, 8),
    (6, Kind::HalfDiminished, 8), (6, Kind::Diminished, 8), (6, Kind::Minor, 16),
    (7, Kind::Dominant, 2), (7, Kind::Major, 5), (7, Kind::Minor, 10),
    (8, Kind::Major, 13), (8, Kind::Dominant, 11), (8, Kind::Minor, 15), (8, Kind::Diminished, 10),
    (9, Kind::Minor, 5), (9, Kind::Dominant, 9), (9, Kind::HalfDiminished, 14),
    (10, Kind::Dominant, 9), (10, Kind::Major, 13),
    (11, Kind::HalfDiminished, 7), (11, Kind::Diminished, 7), (11, Kind::Dominant, 13),
    (11, Kind::Minor, 14),
];

#[rustfmt::skip]
const MINOR: &[Row] = &[
    (0, Kind::TonicMinor, 0), (0, Kind::Minor, 4), (0, Kind::Dominant, 11),
    (1, Kind::Major, 9), (1, Kind::Dominant, 10),
    (2, Kind::HalfDiminished, 2), (2, Kind::Minor, 9), (2, Kind::Dominant, 12),
    (3, Kind::Major, 7), (3, Kind::Dominant, 14),
    (5, Kind::Minor, 4), (5, Kind::TonicMinor, 8), (5, Kind::Dominant, 10),
    (6, Kind::HalfDiminished, 13), (6, Kind::Diminished, 10),
    (7, Kind::Dominant, 2), (7, Kind::Minor, 9), (7, Kind::Major, 6),
    (7, Kind::HalfDiminished, 10),
    (8, Kind::Major, 5), (8, Kind::Dominant, 7),
    (9, Kind::HalfDiminished, 8),
    (10, Kind::Dominant, 8), (10, Kind::Major, 10),
    (11, Kind::Diminished, 5),
];

#[rustfmt::skip]
const BLUES: &[Row] = &[
    (0, Kind::Dominant, 5), (0, Kind::Major, 8),
    (1, Kind::Dominant, 10),
    (2, Kind::Minor, 4), (2, Kind::Dominant, 10),
    (3, Kind::Dominant, 13), (3, Kind::Minor, 13),
    (4, Kind::Minor, 8), (4, Kind::HalfDiminished, 9),
    (5, Kind::Dominant, 5), (5, Kind::Minor, 12),
    (6, Kind::Diminished, 4),
    (7, Kind::Dominant, 3), (7, Kind::Minor, 9),
    (8, Kind::Dominant, 9),
    (9, Kind::Dominant, 8), (9, Kind::Minor, 9),
    (10, Kind::Dominant, 12),
];
