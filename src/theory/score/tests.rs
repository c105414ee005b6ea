//! Times are worked out by hand.

use super::*;
use crate::{NamedPitch, Tempo};

fn quarters(numerator: u64, denominator: u32) -> Quarters {
    Quarters::new(numerator, denominator).unwrap()
}

fn pitch() -> NamedPitch {
    "C4".parse().unwrap()
}

fn note(onset: Quarters, duration: Quarters) -> Note {
    Note::new(onset, duration, pitch()).unwrap()
}

/// Onset and duration in milliseconds.
fn told(score: &Score) -> Vec<(i64, i64)> {
    let ms = |seconds: f64| (seconds * 1000.0).round() as i64;
    let played = score.played(&score.parts[0]);
    played.iter().map(|time| (ms(time.onset_s()), ms(time.duration_s()))).collect()
}

fn score(notes: impl IntoIterator<Item = Note>) -> Score {
    Score { parts: vec![Part::new(notes)], ..Score::default() }
}

/// At 120 a quarter takes 500 ms; from the second quarter on at 60 it takes 1000.
#[test]
fn notes_are_played_in_their_tempo() {
    let slow = Timeline::of([(Quarters::ONE, Tempo::new(60, 1).unwrap())]);
    let third = quarters(1, 3);
    let notes =
        [note(third, third), note(quarters(1, 2), Quarters::ONE), note(Quarters::ONE, third)];
    let score = Score { tempi: TempoMap::of(&slow), ..score(notes) };
    assert_eq!(told(&score), [(167, 167), (250, 750), (500, 333)]);
}

#[test]
fn what_was_recorded_is_kept_bit_by_bit() {
    let time = PlayedTime::new(0.1 + 0.2, 1.0 / 3.0).unwrap();
    let score = score([note(Quarters::ONE, Quarters::ONE).recorded_at(time)]);
    assert_eq!(score.played(&score.parts[0]), [time]);
}

#[test]
fn grace_notes_come_before_their_main_note() {
    let grace = |steps, of, after| Grace::new(steps, of, after).unwrap();
    let main = Quarters::ONE;
    let before = |grace| Note::grace_before(main, grace, pitch());
    let after = Some(Quarters::ZERO);
    let roomy = score([before(grace(2, 2, after)), before(grace(1, 2, after)), note(main, main)]);
    assert_eq!(told(&roomy), [(360, 70), (430, 70), (500, 500)]);
    // A 64th before, at 120 31 ms: the note there and the grace note share it.
    let near = Some(quarters(15, 16));
    assert_eq!(told(&score([before(grace(1, 1, near))])), [(484, 16)]);
    let at_once = Note::grace_before(Quarters::ZERO, grace(1, 1, None), pitch());
    assert_eq!(told(&score([at_once, note(Quarters::ZERO, main)])), [(0, 70), (70, 500)]);
    assert_eq!((Grace::new(0, 1, None), Grace::new(2, 1, None)), (None, None));
}

#[test]
fn rests_lie_between_the_notes() {
    let at = Quarters::whole;
    let rest = |from, to| Rest { from: at(from), to: at(to) };
    let second = Voice::new(2).unwrap();
    let part = Part::new([
        note(at(6), at(1)),
        note(at(1), at(4)),
        note(at(2), at(1)),
        note(at(7), at(1)).in_voice(second),
    ]);
    let part = part.lasting(at(10));
    assert_eq!(part.rests(), [rest(0, 1), rest(5, 6), rest(8, 10)]);
    assert_eq!(part.rests_in(Voice::FIRST), [rest(0, 1), rest(5, 6), rest(7, 10)]);
    assert_eq!(part.rests_in(second), [rest(0, 7), rest(8, 10)]);
    assert_eq!(part.voices(), [Voice::FIRST, second]);
    assert_eq!(part.by_time(), [1, 2, 0, 3]);
    assert_eq!(part.clone().lasting(at(3)).end(), at(10));
    assert_eq!(Part::new([]).rests(), []);
}

#[test]
fn grace_notes_come_first_in_time() {
    let grace =
        |steps| Note::grace_before(Quarters::ONE, Grace::new(steps, 2, None).unwrap(), pitch());
    let part = Part::new([note(Quarters::ONE, Quarters::ONE), grace(1), grace(2)]);
    assert_eq!(part.by_time(), [2, 1, 0]);
}
