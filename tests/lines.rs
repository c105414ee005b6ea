//! Laws of lines: what holds of every pattern over every pair on every instrument.
//!
//! The walk is told again here in the plainest way, from the definition of figures and of the ladder,
//! and shares nothing with the code.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use std::collections::HashMap;

use fretloom::library::{Library, LoadedPatterns};
use fretloom_fretboard::Neck;
use fretloom_theory::{
    Approach, Bars, Begin, ChordScale, ComesRound, Direction, Inversion, Line, LineError, Link,
    Meter, Pattern, Phrase, PhraseNote, Pitch, PitchClass, PitchClassSet, Quarters, Reach, Rhythm,
    Role, Start, Target, Timing, Travel, TriadPair, TriadQuality, WhichTriad,
};
use proptest::prelude::*;

/// One pair of each of the 33 kinds.
fn kinds() -> Vec<TriadPair> {
    let all = PitchClassSet::CHROMATIC;
    let pairs = TriadPair::within(all, TriadQuality::TERTIAN, PitchClass::C);
    let mut kinds = HashMap::new();
    pairs.for_each(|pair| {
        kinds.entry(pair.kind()).or_insert(pair);
    });
    let mut kinds: Vec<TriadPair> = kinds.into_values().collect();
    kinds.sort_by_key(|pair| (pair.first().set().bits(), pair.second().set().bits()));
    assert_eq!(kinds.len(), 33);
    kinds
}

fn over() -> ChordScale {
    ChordScale::alone("C chromatic".parse().unwrap())
}

fn bars(count: u32) -> Quarters {
    Quarters::whole(4 * count)
}

fn phrase(pair: TriadPair, pattern: &Pattern, count: u32) -> Phrase {
    let phrase = Phrase::new(Quarters::ZERO, bars(count), over(), pair);
    Phrase { pattern: pattern.clone(), ..phrase }
}

/// Every pitch that an instrument has up to the twelfth fret.
fn reach_of(tuning: &str) -> Reach {
    let library = Library::load(None);
    let tuning = library.tunings.iter().find(|(found, _)| found.id() == tuning).unwrap().0;
    let neck = Neck::new(tuning.clone());
    let low = neck.places().filter(|(place, _)| place.fret.number() <= 12);
    Reach::new(low.map(|(_, pitch)| pitch), [])
}

const TUNINGS: [&str; 4] =
    ["guitar-standard", "guitar-all-fourths", "bass-4-string", "ukulele-high-g"];

/// The notes of a triad as the notes of an octave, 0 to 11.
fn classes(pair: TriadPair, role: Role) -> Option<Vec<u8>> {
    let triad = match role {
        Role::Triad(WhichTriad::First) => pair.first(),
        Role::Triad(WhichTriad::Second) => pair.second(),
        Role::Free => return None,
    };
    let semitones = match triad.quality() {
        TriadQuality::Major => [0, 4, 7],
        TriadQuality::Minor => [0, 3, 7],
        TriadQuality::Diminished => [0, 3, 6],
        TriadQuality::Augmented => [0, 4, 8],
        TriadQuality::Sus => [0, 5, 7],
        TriadQuality::FlatFive => [0, 4, 6],
    };
    Some(semitones.map(|above| (triad.root().number() + above) % 12).to_vec())
}

fn assert_sound(line: &Line, phrase: &Phrase, reach: &Reach, told: &str) {
    let allowed: Vec<Pitch> = reach.pitches().collect();
    for note in line.notes() {
        if let Some(classes) = classes(phrase.pair, note.role) {
            assert!(classes.contains(&(note.pitch.midi() % 12)), "{told}: {note:?}");
        }
        assert!(allowed.contains(&note.pitch), "{told}: {note:?}");
        assert!(!note.duration.is_zero() && note.end() <= phrase.to, "{told}: {note:?}");
    }
    assert!(line.notes().is_sorted_by_key(|note| note.onset), "{told}");
}

/// Every built-in pattern over each kind of pair in each inversion on four instruments: a line whose
/// notes are what they are said to be, or the reason why there is none.
#[test]
fn there_is_a_line_or_an_exact_reason() {
    let patterns = LoadedPatterns::load(None);
    let (mut made, mut refused) = (0, 0);
    for tuning in TUNINGS {
        let reach = reach_of(tuning);
        for pair in kinds() {
            for pattern in patterns.patterns() {
                for inversion in Inversion::ALL {
                    let start = Start::Lowest(inversion);
                    let phrase = Phrase { start, ..phrase(pair, &pattern.figures, 2) };
                    let told = format!("{tuning} {pair:?} {} {inversion}", pattern.id);
                    match Line::make(std::slice::from_ref(&phrase), &reach) {
                        Ok(line) => {
                            assert_sound(&line, &phrase, &reach, &told);
                            made += 1;
                        }
                        Err(error) => {
                            let said = error.to_string();
                            assert!(
                                said.contains("phrase 1") && said.contains("expected"),
                                "{told}: {said}"
                            );
                            refused += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(made > 20 * refused, "{made} made, {refused} refused");
}

/// The notes of a triad from a lowest note up, counted one by one.
fn nth_above(classes: &[u8], bass: i32, steps: i32) -> i32 {
    let is_of_it = |midi: &i32| classes.contains(&u8::try_from(midi.rem_euclid(12)).unwrap());
    if steps >= 0 {
        (bass..).filter(is_of_it).nth(usize::try_from(steps).unwrap()).unwrap()
    } else {
        (-200..bass).rev().find(is_of_it).unwrap()
    }
}

/// An exercise without an end: groups of plain figures up the ladder, from its definition.
fn climbed(pair: TriadPair, groups: &[Vec<i32>], start: i32, count: usize) -> Vec<i32> {
    let triads = [WhichTriad::First, WhichTriad::Second]
        .map(|which| classes(pair, Role::Triad(which)).unwrap());
    let mut bass = start;
    let mut notes = Vec::new();
    for turn in 0.. {
        let classes = &triads[turn % 2];
        if turn > 0 {
            bass = (bass + 1..)
                .find(|midi| classes.contains(&u8::try_from(midi % 12).unwrap()))
                .unwrap();
        }
        for figure in &groups[turn % groups.len()] {
            notes.push(nth_above(classes, bass, figure - 1));
            if notes.len() == count {
                return notes;
            }
        }
    }
    notes
}

fn midi(line: &Line) -> Vec<i32> {
    line.notes().iter().map(|note| i32::from(note.pitch.midi())).collect()
}

fn figures() -> impl Strategy<Value = Vec<Vec<i32>>> {
    // An even number of groups, so that a round begins with the same triad.
    let group = || prop::collection::vec(0..=6i32, 1..6);
    prop::collection::vec((group(), group()), 1..3)
        .prop_map(|groups| groups.into_iter().flat_map(|(one, other)| [one, other]).collect())
}

fn written(groups: &[Vec<i32>]) -> Pattern {
    let group = |group: &Vec<i32>| group.iter().map(ToString::to_string).collect::<String>();
    groups.iter().map(group).collect::<Vec<_>>().join(" ").parse().unwrap()
}

fn any_kind() -> impl Strategy<Value = TriadPair> {
    (0..33usize, 0..12i32).prop_map(|(kind, up)| {
        let pair = kinds()[kind];
        TriadPair::in_order(pair.first().up(up), pair.second().up(up)).unwrap()
    })
}

fn starts_of_groups(notes: &[PhraseNote]) -> Vec<(usize, &PhraseNote)> {
    let mut last = None;
    let begins = |note: &PhraseNote| last.replace(note.group) != Some(note.group);
    let mut begins = begins;
    notes.iter().enumerate().filter(|(_, note)| begins(note)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(96) })]

    #[test]
    fn an_exercise_is_the_ladder_as_it_is_defined(
        pair in any_kind(),
        groups in figures(),
        inversion in 0..3usize,
    ) {
        let member = pair.first().members()[inversion].number();
        let bass = (40..).find(|bass: &u8| bass % 12 == member).unwrap();
        let start = Start::Bass(Pitch::from_midi(bass).unwrap());
        let to = Quarters::whole(6);
        let phrase = Phrase { start, to, ..phrase(pair, &written(&groups), 2) };
        let line = Line::make(&[phrase], &Reach::between(0, 127)).unwrap();
        prop_assert_eq!(line.turns(), 0);
        prop_assert_eq!(midi(&line), climbed(pair, &groups, i32::from(bass), 12));
    }

    /// Where a link asks for the nearest note of the other triad, no note of it is nearer.
    #[test]
    fn a_link_steps_to_the_nearest_note(pair in any_kind(), groups in figures(), up in any::<bool>()) {
        let direction = if up { Direction::Up } else { Direction::Down };
        let travel = Travel::Linked(Link::Nearest, direction);
        let start = Start::Near(Pitch::from_midi(64).unwrap());
        // Short enough that it stays on the keyboard, however far its groups leap.
        let to = Quarters::whole(3);
        let phrase = Phrase { travel, start, to, ..phrase(pair, &written(&groups), 2) };
        let line = Line::make(&[phrase], &Reach::between(0, 127)).unwrap();
        let notes = line.notes();
        for (index, note) in starts_of_groups(notes).into_iter().skip(1) {
            let before = i32::from(notes[index - 1].pitch.midi());
            let step = i32::from(note.pitch.midi()) - before;
            let others = classes(pair, note.role).unwrap();
            let nearest = (1..12).find(|by| {
                [before + by, before - by].iter().any(|midi| others.contains(&u8::try_from(midi.rem_euclid(12)).unwrap()))
            });
            prop_assert_eq!(Some(step.abs()), nearest, "{:?}", notes);
        }
    }

    /// In a range that is too narrow to climb on, the line turns and never leaves it, never leaps
    /// further than a group asks for, and never plays one group twice in a row.
    #[test]
    fn a_line_turns_within_its_range(pair in any_kind(), lowest in 30..60u8, wide in 20..30u8) {
        let pattern: Pattern = "123".parse().unwrap();
        let start = Start::Near(Pitch::from_midi(lowest + 8).unwrap());
        let phrase = Phrase { start, ..phrase(pair, &pattern, 8) };
        let reach = Reach::between(lowest, lowest + wide);
        let line = Line::make(std::slice::from_ref(&phrase), &reach).unwrap();
        assert_sound(&line, &phrase, &reach, "range");
        prop_assert!(line.turns() > 0);
        let groups: Vec<Vec<i32>> = midi(&line).chunks(3).map(<[i32]>::to_vec).collect();
        for two in groups.windows(2) {
            prop_assert_ne!(&two[0], &two[1]);
            prop_assert!((two[0][0] - two[1][0]).abs() <= 12, "{:?}", two);
        }
    }

    /// What comes round begins a bar with the same triad, and nothing did before.
    #[test]
    fn a_line_comes_round_when_it_is_said(pair in any_kind(), groups in figures(), units in 2..8u8) {
        let pattern = written(&groups);
        let meter = Meter::new(units, 4).unwrap();
        let round = ComesRound::of(&pattern, &Rhythm::eighths(), meter).unwrap();
        prop_assume!(round.bars <= 60);
        let bar = meter.bar();
        let count = u32::try_from(round.bars).unwrap() + 1;
        let to = bar.times(count).unwrap();
        let phrase = Phrase { to, travel: Travel::Stay, ..phrase(pair, &pattern, 1) };
        let line = Line::make(&[phrase], &Reach::between(24, 127)).unwrap();
        let bars_of = Bars::of(meter);
        let first: Vec<u64> = starts_of_groups(line.notes())
            .into_iter()
            .filter(|(index, _)| index % pattern.length() == 0)
            .filter_map(|(_, note)| bars_of.at(note.onset).filter(|at| at.into.is_zero()))
            .map(|at| at.index)
            .collect();
        prop_assert_eq!(&first[..2], &[0, round.bars][..]);
        prop_assert_eq!(line.end(), to);
    }

    /// A target sounds on its moment, and what leads there does as it is asked.
    #[test]
    fn a_target_is_reached(pair in any_kind(), class in 0..12i32, kind in 0..4usize, late in 0..3usize) {
        let approach =
            [Approach::Step, Approach::HalfStepBelow, Approach::HalfStepAbove, Approach::Enclosure][kind];
        let eighth = Quarters::EIGHTH;
        let timing = [Timing::OnTime, Timing::Early(eighth), Timing::Late(eighth)][late];
        let notes = PitchClassSet::EMPTY.with(PitchClass::new(class));
        let target = Target { notes, at: bars(2), length: bars(1), approach, timing, pair: None };
        let pattern: Pattern = "1232 321".parse().unwrap();
        let phrase = Phrase { target: Some(target), start: Start::FromBefore, ..phrase(pair, &pattern, 2) };
        let line = Line::make(&[phrase], &Reach::between(40, 88)).unwrap();
        let [.., before, landed] = line.notes() else { panic!("no notes") };
        prop_assert_eq!(i32::from(landed.pitch.midi() % 12), class);
        let eighths: u64 = match timing { Timing::OnTime => 16, Timing::Early(_) => 15, Timing::Late(_) => 17 };
        prop_assert_eq!(landed.onset, Quarters::new(eighths, 2).unwrap());
        prop_assert_eq!(before.end(), landed.onset);
        let by = i32::from(landed.pitch.midi()) - i32::from(before.pitch.midi());
        match approach {
            Approach::HalfStepBelow | Approach::Enclosure => prop_assert_eq!(by, 1),
            Approach::HalfStepAbove => prop_assert_eq!(by, -1),
            Approach::Step | Approach::Any => prop_assert!((1..=2).contains(&by.abs())),
        }
    }

    /// Over a change of chord nothing breaks, and every note belongs to the pair of its time.
    #[test]
    fn a_line_runs_on_over_a_change(one in any_kind(), other in any_kind(), groups in figures()) {
        let pattern = written(&groups);
        let first = phrase(one, &pattern, 1);
        let second = Phrase { from: bars(1), to: bars(2), pair: other, begin: Begin::RunsOn, ..first.clone() };
        let line = Line::make(&[first, second], &Reach::between(24, 110)).unwrap();
        prop_assert_eq!(line.notes().len(), 16);
        for (index, note) in line.notes().iter().enumerate() {
            let pair = if index < 8 { one } else { other };
            prop_assert!(classes(pair, note.role).unwrap().contains(&(note.pitch.midi() % 12)));
            prop_assert_eq!(note.onset, Quarters::new(index as u64, 2).unwrap());
        }
    }
}

/// Patterns and phrases that nobody would write end soon and say why.
#[test]
fn absurd_phrases_are_refused_in_bounded_time() {
    let pair = kinds()[0];
    let pattern: Pattern = "123".parse().unwrap();
    let endless = Phrase { to: Quarters::whole(u32::MAX), ..phrase(pair, &pattern, 1) };
    assert_eq!(Line::make(&[endless], &Reach::between(24, 100)), Err(LineError::TooLong));
    let fine: Rhythm = "64".parse().unwrap();
    let dense =
        Phrase { rhythm: fine, to: Quarters::whole(1_000_000), ..phrase(pair, &pattern, 1) };
    assert_eq!(Line::make(&[dense], &Reach::between(24, 100)), Err(LineError::TooLong));
    let nowhere = Line::make(&[phrase(pair, &pattern, 1)], &Reach::new([], []));
    assert!(matches!(nowhere, Err(LineError::NoStart { .. })));
}
