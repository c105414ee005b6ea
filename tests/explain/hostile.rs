//! What nobody plays: it is read in bounded time, and every note is said once.

use std::time::{Duration, Instant};

use fretloom_theory::{
    ChordSymbol, ExplainedBar, NamedPitch, Note, Part, Pitch, Quarters, Score, Timeline,
};

use crate::dice::Dice;
use crate::explained;

/// Far more than any of these takes, and far less than what grows without bounds.
const LONGEST: Duration = Duration::from_secs(20);

fn note(at: Quarters, length: Quarters, midi: usize) -> Note {
    let pitch = Pitch::from_midi(u8::try_from(midi % 128).unwrap()).unwrap();
    Note::new(at, length, NamedPitch::everyday(pitch)).unwrap()
}

fn score(notes: impl IntoIterator<Item = Note>, chords: &[(u32, &str)]) -> Score {
    let chords =
        chords.iter().map(|(at, symbol)| (Quarters::whole(*at), ChordSymbol::read(symbol)));
    Score { chords: Timeline::of(chords), parts: vec![Part::new(notes)], ..Score::default() }
}

/// All its notes are said once, and soon.
fn assert_said(score: &Score) -> Vec<ExplainedBar> {
    let start = Instant::now();
    let bars = explained(score).bars;
    assert!(start.elapsed() < LONGEST, "{:?}", start.elapsed());
    let mut said: Vec<usize> = Vec::new();
    for bar in &bars {
        said.extend(bar.groups.iter().flat_map(|group| &group.notes).chain(&bar.free));
    }
    said.sort_unstable();
    assert_eq!(said, (0..score.parts[0].notes().len()).collect::<Vec<_>>());
    bars
}

#[test]
fn nothing_is_of_no_pair() {
    for chords in [&[][..], &[(0, "Dm7")], &[(400, "Dm7")]] {
        assert!(assert_said(&score([], chords)).iter().all(|bar| bar.pair.is_none()));
    }
}

#[test]
fn chords_that_begin_after_the_last_note_are_no_harm() {
    let notes = [65, 69, 72, 67, 71, 74].into_iter().zip(0..);
    let notes =
        notes.map(|(midi, at)| note(Quarters::EIGHTH.times(at).unwrap(), Quarters::EIGHTH, midi));
    let bars = assert_said(&score(notes, &[(4, "Dm7"), (4_000, "Hx"), (u32::MAX, "G7")]));
    assert!(bars[0].pair.is_some() && bars[0].chord.is_none());
}

#[test]
fn a_cluster_of_all_notes_is_no_pair() {
    let notes = (0..4_000).map(|index| note(Quarters::ZERO, Quarters::ONE, index));
    assert!(assert_said(&score(notes, &[(0, "Dm7")])).iter().all(|bar| bar.pair.is_none()));
}

#[test]
fn a_note_at_the_end_of_time_takes_no_longer() {
    let notes = [0, 1, u32::MAX / 2, u32::MAX - 1];
    let notes = notes.map(|at| note(Quarters::whole(at), Quarters::ONE, 60));
    assert_said(&score(notes, &[(0, "Dm7"), (u32::MAX - 4, "G7")]));
}

#[test]
fn notes_at_random_are_said_once() {
    let mut dice = Dice::seeded(12);
    for _ in 0..200 {
        let count = dice.below(60);
        let notes: Vec<Note> = (0..count)
            .map(|_| {
                let [at, length] = [200, 12].map(|most| u64::try_from(dice.below(most)).unwrap());
                let below = u32::try_from(1 + dice.below(12)).unwrap();
                let [at, length] = [at, length].map(|above| Quarters::new(above, below).unwrap());
                note(at, length, dice.below(128))
            })
            .collect();
        assert_said(&score(notes, &[(1, "Dm7"), (3, "N.C."), (17, "Hx"), (18, "C7alt")]));
    }
}
