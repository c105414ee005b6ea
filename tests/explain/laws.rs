//! What holds of every reading, whatever is read.

use std::collections::BTreeSet;

use fretloom_theory::{
    ExplainedBar, ExplainedGroup, Explanation, Inversion, NamedPitch, Note, Part, Pitch, Quarters,
    Score, Timeline, Triad,
};

use crate::count::is_same;
use crate::generator::tune;
use crate::passages::all;
use crate::teacher::{score, told, up};
use crate::{TUNE, explained};

const TUNES: u64 = 60;

/// The explanations of tunes, each with its part.
fn explanations() -> impl Iterator<Item = (Explanation, Part)> {
    (0..TUNES).map(|seed| {
        let mut score = tune(seed, TUNE).score;
        let explanation = explained(&score);
        (explanation, score.parts.remove(0))
    })
}

#[test]
fn every_note_is_said_once() {
    for (explanation, part) in explanations() {
        let said = explanation.bars.iter().flat_map(|bar| {
            bar.groups.iter().flat_map(|group| &group.notes).chain(&bar.free).copied()
        });
        let mut said: Vec<usize> = said.collect();
        said.sort_unstable();
        assert_eq!(said, (0..part.notes().len()).collect::<Vec<_>>());
    }
}

#[test]
fn bars_follow_one_another_without_a_gap() {
    for (explanation, _) in explanations() {
        assert_eq!(explanation.bars[0].from, Quarters::ZERO);
        for bars in explanation.bars.windows(2) {
            assert_eq!(bars[0].to, bars[1].from);
        }
    }
}

#[test]
fn groups_are_notes_of_the_triads_of_their_pair() {
    for (explanation, part) in explanations() {
        for bar in &explanation.bars {
            for group in &bar.groups {
                assert!(bar.pair.unwrap().triads().contains(&group.triad), "{bar:?}");
                let members = members(group.triad);
                assert!(pitches(group, &part).all(|pitch| members.contains(&(pitch % 12))));
            }
        }
    }
}

fn members(triad: Triad) -> [u8; 3] {
    triad.members().map(|member| member.number())
}

fn pitches(group: &ExplainedGroup, part: &Part) -> impl Iterator<Item = u8> {
    group.notes.iter().map(|note| part.notes()[*note].pitch().pitch().midi())
}

#[test]
fn the_lowest_note_of_a_whole_group_is_its_inversion() {
    for (explanation, part) in explanations() {
        for group in explanation.bars.iter().flat_map(|bar| &bar.groups) {
            let classes: BTreeSet<u8> = pitches(group, &part).map(|pitch| pitch % 12).collect();
            let lowest = pitches(group, &part).min().unwrap() % 12;
            let at = members(group.triad).iter().position(|member| *member == lowest);
            let expected = (classes.len() == 3).then(|| Inversion::ALL[at.unwrap()]);
            assert_eq!(group.inversion, expected, "{group:?}");
        }
    }
}

/// A pair needs both of its triads whole: in the bar, or one there and the other in a bar beside it
/// of the same pair.
#[test]
fn a_pair_is_heard_whole() {
    for (explanation, part) in explanations() {
        let bars = &explanation.bars;
        for (index, bar) in bars.iter().enumerate() {
            let Some(pair) = bar.pair else { continue };
            let own = whole(bar, &part);
            let beside = [index.checked_sub(1), Some(index + 1)];
            let beside = beside.into_iter().flatten().filter_map(|index| bars.get(index));
            let beside = beside.filter(|bar| bar.pair.is_some_and(|other| is_same(other, pair)));
            let heard: BTreeSet<u16> =
                beside.flat_map(|bar| whole(bar, &part)).chain(own.iter().copied()).collect();
            let told = |bar| told(bar, &part).to_string();
            let near = &bars[index.saturating_sub(1)..bars.len().min(index + 2)];
            let near: Vec<String> = near.iter().map(told).collect();
            assert!(!own.is_empty() && heard.len() == 2, "{}: {near:#?}", bar.label);
        }
    }
}

/// The triads that sound whole within a group, as sets.
fn whole(bar: &ExplainedBar, part: &Part) -> BTreeSet<u16> {
    let is_whole = |group: &&ExplainedGroup| {
        pitches(group, part).map(|pitch| pitch % 12).collect::<BTreeSet<u8>>().len() == 3
    };
    bar.groups.iter().filter(is_whole).map(|group| group.triad.set().bits()).collect()
}

#[test]
fn other_readings_are_other_pairs() {
    for (explanation, _) in explanations() {
        for bar in &explanation.bars {
            for (index, reading) in bar.readings.iter().enumerate() {
                let before = bar.pair.iter().chain(&bar.readings[..index]);
                assert!(!before.into_iter().any(|other| is_same(*other, *reading)), "{bar:?}");
            }
        }
    }
}

/// What was said of each chord, in numbers: triads as sets with their notes, and free notes.
type Said = Vec<(Vec<(u16, Vec<usize>)>, Vec<usize>)>;

/// The same, every triad so many semitones lower.
fn said(explanation: &Explanation, down: i32) -> Said {
    let group =
        |group: &ExplainedGroup| (group.triad.set().transposed(-down).bits(), group.notes.clone());
    let bars = explanation.bars.iter();
    bars.map(|bar| (bar.groups.iter().map(group).collect(), bar.free.clone())).collect()
}

#[test]
fn a_passage_is_read_alike_in_every_key() {
    for (chords, notes, _) in all() {
        let here = score(chords, notes);
        let expected = said(&explained(&here), 0);
        for by in 1..12 {
            let mut there = score(&up(chords, by), notes);
            there.parts = vec![Part::new(here.parts[0].notes().iter().map(|note| moved(note, by)))];
            assert_eq!(said(&explained(&there), by), expected, "{chords}: {notes}, up {by}");
        }
    }
}

fn moved(note: &Note, by: i32) -> Note {
    let pitch: Pitch = note.pitch().pitch().up(by).unwrap();
    Note::new(note.onset(), note.duration(), NamedPitch::everyday(pitch)).unwrap()
}

/// Programs round the onsets of chords, and so do numbers in files.
#[test]
fn chords_a_hair_before_or_after_the_bar_line_change_nothing() {
    let hair = Quarters::new(1, 480).unwrap();
    for (chords, notes, _) in all() {
        let score = score(chords, notes);
        let expected = said(&explained(&score), 0);
        for shift in [Quarters::checked_sub, Quarters::checked_add] {
            let onset = |at| shift(at, hair).unwrap_or(at);
            let changes = score.chords.changes().iter();
            let chords = Timeline::of(changes.map(|(at, chord)| (onset(*at), chord.clone())));
            let shifted = Score { chords, ..score.clone() };
            assert_eq!(said(&explained(&shifted), 0), expected, "{notes}");
        }
    }
}
