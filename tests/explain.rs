//! Lines are read back as players mean them: passages with the reading of a teacher, lines of a
//! generator that knows nothing of how they are read, and recorded solos.
//!
//! `cargo test --test explain -- --nocapture figures` prints what was counted over some 2,000 bars,
//! and the first that were read otherwise than meant; with `FRETLOOM_EXPLAIN_BARS=100000` over as
//! many as that says. All tests that ask for rates then ask these bars.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "the functions of a test are a test too, and one prints what it measured"
)]

#[path = "explain/count.rs"]
mod count;
#[path = "explain/dice.rs"]
mod dice;
#[path = "explain/evident.rs"]
mod evident;
#[path = "explain/generator.rs"]
mod generator;
#[path = "explain/grid.rs"]
mod grid;
#[path = "explain/harmony.rs"]
mod harmony;
#[path = "explain/hostile.rs"]
mod hostile;
#[path = "explain/laws.rs"]
mod laws;
#[path = "explain/line.rs"]
mod line;
#[path = "explain/other_lines.rs"]
mod other_lines;
#[path = "explain/pair_lines.rs"]
mod pair_lines;
#[path = "explain/passages.rs"]
mod passages;
#[path = "support/recorded_solos.rs"]
mod recorded_solos;
#[path = "explain/several_splits.rs"]
mod several_splits;
#[path = "explain/teacher.rs"]
mod teacher;
#[path = "explain/windows.rs"]
mod windows;

use std::sync::OnceLock;

use count::{Count, is_same};
use fretloom_theory::{Explanation, Score};
use other_lines::MANNERS;
use passages::{
    EARLY_AND_LATE, LANDINGS, OF_EQUAL_READINGS, OF_NO_PAIR, OF_TWO_SPLITS, OVER_SEVERAL_CHORDS,
    PLAIN, Passage, WITH_FREE_NOTES,
};
use recorded_solos::recorded_solos;
use teacher::{Reading, pair, readings, score, told};
use windows::{Chord, called_a_pair};

/// Bars of a tune.
const TUNE: u32 = 16;
const SEED: u64 = 0x9a125;
/// How many of the bars that were read otherwise are listed.
const LISTED: usize = 40;

/// What is said of the first part.
fn explained(score: &Score) -> Explanation {
    Explanation::of(score, &score.parts[0])
}

/// What all tests of lines made by the generator ask.
fn counted() -> &'static Count {
    static COUNT: OnceLock<Count> = OnceLock::new();
    COUNT.get_or_init(count_all)
}

fn count_all() -> Count {
    let asked = std::env::var("FRETLOOM_EXPLAIN_BARS").ok();
    let bars = asked.map_or(2_000, |bars| bars.parse().unwrap());
    let mut count = Count::default();
    for tune in 0..bars / TUNE {
        count.add(&generator::tune(SEED + u64::from(tune), TUNE));
    }
    count
}

fn listed(failures: &[String]) -> String {
    failures[..failures.len().min(LISTED)].join("\n")
}

/// Is it what the teacher says? Where there is no pair, nothing else is asked.
fn agrees(told: &Reading, expected: &Reading) -> bool {
    match (told.pair, expected.pair) {
        (None, None) => told.groups.is_empty(),
        (Some(one), Some(other)) => {
            is_same(one, other) && told.groups == expected.groups && told.free == expected.free
        }
        (Some(_), None) | (None, Some(_)) => false,
    }
}

/// What a teacher would not say, of all passages.
fn read_otherwise(passages: &[Passage]) -> Vec<String> {
    let mut otherwise = Vec::new();
    for (chords, notes, reading) in passages {
        let score = score(chords, notes);
        let explanation = explained(&score);
        let told: Vec<Reading> =
            explanation.bars.iter().map(|bar| told(bar, &score.parts[0])).collect();
        let expected = readings(reading);
        let agree = told.len() == expected.len()
            && told.iter().zip(&expected).all(|(told, expected)| agrees(told, expected));
        if !agree {
            let told: Vec<String> = told.iter().map(Reading::to_string).collect();
            let told = told.join(" | ");
            otherwise.push(format!("{chords}: {notes}\n  expected {reading}\n  told     {told}"));
        }
    }
    otherwise
}

fn assert_read(passages: &[Passage]) {
    let otherwise = read_otherwise(passages);
    assert!(otherwise.is_empty(), "read otherwise:\n{}\n", otherwise.join("\n"));
}

#[test]
fn groups_are_read_as_a_teacher_reads_them() {
    assert_read(PLAIN);
}

#[test]
fn notes_that_lead_into_a_pair_are_free() {
    assert_read(WITH_FREE_NOTES);
}

#[test]
fn a_group_belongs_to_the_chord_that_it_speaks() {
    assert_read(EARLY_AND_LATE);
}

#[test]
fn what_is_of_no_pair_is_not_forced_into_one() {
    assert_read(OF_NO_PAIR);
}

#[test]
fn pairs_change_with_the_chords_and_stop() {
    assert_read(OVER_SEVERAL_CHORDS);
}

#[test]
fn the_order_of_six_notes_tells_which_pair_they_are() {
    assert_read(OF_TWO_SPLITS);
}

#[test]
fn what_two_pairs_explain_equally_well_names_both() {
    for (chord, notes, pairs) in OF_EQUAL_READINGS {
        let score = score(chord, notes);
        let explanation = explained(&score);
        let bar = &explanation.bars[0];
        let told: Vec<_> = bar.pair.iter().chain(&bar.readings).collect();
        for expected in pairs {
            let named = told.iter().filter(|told| is_same(***told, pair(expected))).count();
            assert_eq!(named, 1, "{chord}: {notes}: {expected}");
        }
    }
}

#[test]
fn a_line_lands_on_the_next_chord() {
    for (chords, notes, expected, arrival) in LANDINGS {
        let landing = explained(&score(chords, notes)).bars[0].landing.clone().unwrap();
        let said = format!("{landing:#}");
        assert!(said.starts_with(expected), "{chords}: {notes}: {said}");
        assert_eq!(landing.arrival, *arrival, "{chords}: {notes}: {said}");
    }
}

/// Enough of each to tell something.
#[test]
fn the_generator_plays_all_kinds_of_lines() {
    let count = counted();
    let others = 100.0 * count.others.of as f64 / count.bars as f64;
    assert!((36.0..48.0).contains(&others), "{others} of a hundred are of no pair");
    for (share, least) in [(count.evident, 400), (count.free, 500), (count.shifted, 150)] {
        assert!(share.of >= least, "{count}");
    }
    assert_eq!(count.of_manners.len(), MANNERS.len());
    assert!(count.of_manners.values().all(|share| share.of >= 80), "{count}");
}

/// The rates that players may expect, on lines that the reader has not been fitted to.
#[test]
fn other_lines_and_free_notes_are_told_from_pairs() {
    let count = counted();
    let listed = listed(&count.failures);
    assert!(count.others.percent() <= 4.0, "{count}{listed}\n");
    assert!(count.free.percent() >= 90.0, "{count}{listed}\n");
}

/// Two beats early at most, or as late. A quarter of these groups belong to bars that show no pair
/// even so, and two notes of a triad may be the neighbour's as well: all can never be told.
#[test]
fn early_and_late_groups_reach_their_chord() {
    let count = counted();
    assert!(count.shifted.percent() >= 43.0, "{count}");
}

#[test]
fn recorded_solos_are_rarely_called_pairs_where_recordings_are_kept() {
    let Some(solos) = recorded_solos() else { return };
    for chord in [Chord::Unknown, Chord::Plausible] {
        let (count, called) = called_a_pair(&solos, chord);
        assert!(
            called.len() * 100 <= count * 3,
            "{} of {count}\n{}",
            called.len(),
            listed(&called)
        );
    }
}

#[test]
fn figures() {
    let count = counted();
    println!("{count}{}", listed(&count.failures));
    let Some(solos) = recorded_solos() else { return };
    for (chord, name) in [(Chord::Unknown, "no chord"), (Chord::Plausible, "a chord")] {
        let (count, called) = called_a_pair(&solos, chord);
        println!("eight notes of a solo, {name:9} {} of {count} called a pair", called.len());
        println!("{}", listed(&called));
    }
}
