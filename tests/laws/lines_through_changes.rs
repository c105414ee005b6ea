//! Lines through the changes of tunes that nobody wrote.
//!
//! Where phrases begin, which figures come and where the nearest note lies is found here a second time,
//! from the words that say what a line does: note by note, by trying every place.

use std::collections::BTreeSet;

use fretloom::answer::{
    LineAnswer, LineArea, LineChords, LineQuestion, LineTarget, Refusal, ToldNote,
};
use fretloom::library::{LoadedPatterns, phrases_of_text};
use fretloom_fretboard::{FretRange, Region, StringSet};
use fretloom_theory::{
    AtChange, Direction, LineStyle, Link, Pattern, PitchClass, Role, Travel, WhichTriad,
};
use proptest::prelude::*;
use proptest::sample::select;

use crate::arithmetic::{class_of, semitones_of};
use crate::made_up_tune::{Held, Tune, cases, eighths, guitar, triads, tune};

/// Open strings from the first to the sixth. common practice, no source
const OPEN: [i32; 6] = [64, 59, 55, 50, 45, 40];
const LAST_FRET: i32 = 22;

/// One way to go on over a stretch of time, from one eighth to another.
struct Idea {
    from: u32,
    until: u32,
    groups: Vec<Vec<i32>>,
    at_change: AtChange,
    /// The pitches that it may use.
    reach: BTreeSet<i32>,
}

/// Notes of one group over one pair, one after another.
#[derive(Debug)]
struct Piece {
    from: u32,
    figures: Vec<i32>,
    /// Which triad of the pair, 0 or 1.
    which: usize,
    /// The notes of the triad.
    triad: Vec<i32>,
    /// Does the line go there by the nearest note?
    is_arrival: bool,
}

/// Over which pair a line is at an eighth: as in the plan, and before its first chord in that one's.
fn pair_at(chords: &LineChords, eighth: u32) -> [Vec<i32>; 2] {
    let before = chords.chords().iter().rev().find(|chord| eighths(chord.from) <= eighth);
    triads(before.unwrap_or(&chords.chords()[0]).pair.pair())
}

/// Does the line begin anew, or go on in another pair, at this eighth?
fn is_change(chords: &LineChords, eighth: u32, at_change: AtChange) -> bool {
    let begins = chords.chords().iter().any(|chord| eighths(chord.from) == eighth);
    match at_change {
        AtChange::RunsOn => begins && pair_at(chords, eighth) != pair_at(chords, eighth - 1),
        AtChange::BeginsAgain | AtChange::CutShort => begins,
    }
}

/// What is played, an eighth after an eighth.
fn pieces(tune: &Tune, chords: &LineChords, ideas: &[Idea]) -> Vec<Piece> {
    let mut all = Vec::new();
    for idea in ideas {
        let flat: Vec<(usize, i32)> = idea
            .groups
            .iter()
            .enumerate()
            .flat_map(|(group, figures)| figures.iter().map(move |figure| (group, *figure)))
            .collect();
        // The stretches in which the pattern is not interrupted, each over one pair.
        let mut stretches: Vec<(u32, u32)> = Vec::new();
        for eighth in (idea.from..idea.until).filter(|eighth| !tune.rests_at(*eighth)) {
            let goes_on = eighth > idea.from
                && !tune.rests_at(eighth - 1)
                && !is_change(chords, eighth, idea.at_change);
            match stretches.last_mut().filter(|_| goes_on) {
                Some(last) => last.1 = eighth + 1,
                None => stretches.push((eighth, eighth + 1)),
            }
        }
        let last = stretches.last().copied();
        let (mut played, mut ended) = (0, None);
        for (from, until) in stretches {
            let runs_on = idea.at_change == AtChange::RunsOn && ended == Some(from);
            played = if runs_on { played } else { 0 };
            let mut own: Vec<Piece> = Vec::new();
            let mut last_group = None;
            for eighth in from..until {
                let rounds = played / flat.len();
                let (group, figure) = flat[played % flat.len()];
                let number = rounds * idea.groups.len() + group;
                if last_group.replace(number) != Some(number) {
                    let (which, triad) = (number % 2, pair_at(chords, from)[number % 2].clone());
                    let is_arrival = own.is_empty();
                    own.push(Piece { from: eighth, figures: vec![], which, triad, is_arrival });
                }
                own.last_mut().unwrap().figures.push(figure);
                played += 1;
            }
            // What is cut ends with its last whole group, unless that is the only one; the last
            // stretch of a section leads to nothing that it would be cut for.
            let is_last = Some((from, until)) == last && ideas.len() > 1;
            let whole = played % flat.len();
            let lengths = idea.groups.iter().scan(0, |sum, group| {
                *sum += group.len();
                Some(*sum)
            });
            let is_whole = whole == 0 || lengths.clone().any(|sum| sum == whole);
            if idea.at_change == AtChange::CutShort && !is_last && !is_whole && own.len() > 1 {
                own.pop();
            }
            all.extend(own);
            ended = Some(until);
        }
    }
    all
}

/// The note of a triad so many steps above its lowest.
fn above(triad: &[i32], bass: i32, figure: i32) -> i32 {
    let is_of_it = |midi: &i32| triad.contains(&midi.rem_euclid(12));
    match usize::try_from(figure - 1) {
        Ok(steps) => (bass..).filter(is_of_it).nth(steps).unwrap(),
        Err(_) => (-200..bass).rev().find(is_of_it).unwrap(),
    }
}

/// Every way to play a piece on what may be used.
fn ways(piece: &Piece, reach: &BTreeSet<i32>) -> Vec<Vec<i32>> {
    let basses = (0..=127).filter(|bass| piece.triad.contains(&(bass % 12)));
    let way =
        |bass| piece.figures.iter().map(|figure| above(&piece.triad, bass, *figure)).collect();
    basses.map(way).filter(|way: &Vec<i32>| way.iter().all(|note| reach.contains(note))).collect()
}

/// How far a note is; the same again comes after those that a step of three leads to.
fn distance(from: i32, to: i32) -> i32 {
    if from == to { 3 } else { (from - to).abs() }
}

/// What was made is what was to be made.
fn agrees(notes: &[ToldNote], pieces: &[Piece], ideas: &[Idea]) -> Result<(), TestCaseError> {
    let expected: Vec<u32> =
        pieces.iter().flat_map(|piece| (piece.from..).take(piece.figures.len())).collect();
    let onsets: Vec<u32> = notes.iter().map(|told| eighths(told.note.onset)).collect();
    prop_assert_eq!(onsets, expected);
    let midi: Vec<i32> = notes.iter().map(|told| i32::from(told.note.pitch.midi())).collect();
    let mut first = 0;
    for piece in pieces {
        let range = first..first + piece.figures.len();
        let idea = ideas.iter().find(|idea| (idea.from..idea.until).contains(&piece.from));
        let ways = ways(piece, &idea.unwrap().reach);
        let played = midi[range.clone()].to_vec();
        prop_assert!(ways.contains(&played), "{:?} is not {:?}", played, piece);
        for told in &notes[range] {
            let which = [WhichTriad::First, WhichTriad::Second][piece.which];
            prop_assert_eq!(told.note.role, Role::Triad(which));
            let root = told.triad.unwrap();
            let class = class_of(&format!("{:#}", told.name));
            prop_assert!(piece.triad.contains(&class), "{:?} of {}", told, root);
        }
        if piece.is_arrival && first > 0 {
            let before = midi[first - 1];
            let nearest = ways.iter().map(|way| distance(before, way[0])).min();
            prop_assert_eq!(Some(distance(before, played[0])), nearest, "{:?}", piece);
        }
        first += piece.figures.len();
    }
    Ok(())
}

/// The pitches between two frets of some strings, open strings only where the first fret is 0.
fn pitches(strings: &[usize], frets: (i32, i32)) -> BTreeSet<i32> {
    strings
        .iter()
        .flat_map(|string| (frets.0..=frets.1).map(|fret| OPEN[*string - 1] + fret))
        .collect()
}

fn groups(highest: i32) -> impl Strategy<Value = Vec<Vec<i32>>> {
    // An even number of groups, so that every round begins with the same triad.
    let group = move || prop::collection::vec(1..=highest, 1..6);
    prop::collection::vec((group(), group()), 1..3)
        .prop_map(|groups| groups.into_iter().flat_map(|(one, other)| [one, other]).collect())
}

fn figures(groups: &[Vec<i32>]) -> String {
    let group = |group: &Vec<i32>| group.iter().map(ToString::to_string).collect::<String>();
    groups.iter().map(group).collect::<Vec<_>>().join(" ")
}

fn at_change() -> impl Strategy<Value = AtChange> {
    select(vec![AtChange::RunsOn, AtChange::BeginsAgain, AtChange::CutShort])
}

fn word(at_change: AtChange) -> &'static str {
    match at_change {
        AtChange::RunsOn => "runs-on",
        AtChange::BeginsAgain => "again",
        AtChange::CutShort => "cut",
    }
}

fn travel() -> impl Strategy<Value = Travel> {
    select(vec![
        Travel::Ladder(Direction::Up),
        Travel::Ladder(Direction::Down),
        Travel::Linked(Link::Nearest, Direction::Up),
        Travel::Linked(Link::Above, Direction::Up),
        Travel::Linked(Link::Below, Direction::Down),
        Travel::Stay,
    ])
}

fn made(question: &LineQuestion) -> Result<LineAnswer, Refusal> {
    let (neck, tuning) = guitar();
    LineAnswer::new(&neck, tuning, question)
}

/// Whatever is refused is refused with what would help.
fn or_a_reason(made: Result<LineAnswer, Refusal>) -> Result<LineAnswer, TestCaseError> {
    made.map_err(|refusal| {
        let said = refusal.to_string();
        assert!(said.contains("expected"), "{said}");
        TestCaseError::reject(said)
    })
}

proptest! {
    #![proptest_config(cases(96))]

    /// On the whole neck there is always an exercise: an eighth after an eighth, each note one of the
    /// pair of its time as the figures have it, and each change made by the nearest note.
    #[test]
    fn an_exercise_changes_by_the_nearest_note(
        tune in tune(),
        groups in groups(4),
        at_change in at_change(),
        travel in travel(),
    ) {
        let chords = tune.chords(&guitar().0);
        let from = eighths(chords.chords()[0].from);
        let reach = pitches(&[1, 2, 3, 4, 5, 6], (0, LAST_FRET));
        let pattern: Pattern = figures(&groups).parse().unwrap();
        let ideas = [Idea { from, until: 2 * tune.end(), groups, at_change, reach }];
        let question = LineQuestion {
            style: LineStyle::Exercise,
            pattern: Some(pattern),
            travel: Some(travel),
            at_change,
            ..LineQuestion::over(chords.clone())
        };
        let answer = made(&question).unwrap();
        agrees(&answer.notes, &pieces(&tune, &chords, &ideas), &ideas)?;
    }

    /// On some strings between some frets there is the same, or the reason why there is none; and it lies
    /// there.
    #[test]
    fn strings_and_frets_are_kept(
        tune in tune(),
        groups in groups(3),
        at_change in at_change(),
        lowest in 1..6usize,
        first in 0..12i32,
        span in 6..10i32,
    ) {
        let chords = tune.chords(&guitar().0);
        let from = eighths(chords.chords()[0].from);
        let strings = [lowest, lowest.saturating_sub(1).max(1), lowest + 1];
        let set: BTreeSet<usize> = strings.into_iter().collect();
        let frets = (first, first + span);
        let words = set.iter().rev().map(ToString::to_string).collect::<Vec<_>>().join("-");
        let strings: StringSet = words.parse().unwrap();
        let range: FretRange = format!("{}-{}", frets.0, frets.1).parse().unwrap();
        let region = Region::WHOLE_NECK.on(strings).within(range);
        let set: Vec<usize> = set.into_iter().collect();
        let reach = pitches(&set, frets);
        let pattern: Pattern = figures(&groups).parse().unwrap();
        let ideas = [Idea { from, until: 2 * tune.end(), groups, at_change, reach }];
        let question = LineQuestion {
            style: LineStyle::Exercise,
            pattern: Some(pattern),
            at_change,
            area: LineArea { region, ..LineArea::whole_neck() },
            ..LineQuestion::over(chords.clone())
        };
        let answer = or_a_reason(made(&question))?;
        agrees(&answer.notes, &pieces(&tune, &chords, &ideas), &ideas)?;
        for at in &answer.ways[0].way.notes {
            prop_assert!(set.contains(&usize::from(at.place.string.number())), "{:?}", at);
            let fret = i32::from(at.place.fret.number());
            prop_assert!((frets.0..=frets.1).contains(&fret), "{:?}", at);
        }
    }

    /// Each section has an idea of its own, figures, strings and what becomes of them at a change, each
    /// time that it comes.
    #[test]
    fn each_section_has_its_own_idea(
        tune in tune(),
        patterns in (groups(3), groups(3)),
        at_changes in (at_change(), at_change()),
        lowest in (1..5usize, 1..5usize),
    ) {
        let chords = tune.chords(&guitar().0);
        let mut text = String::new();
        let mut ideas: Vec<Idea> = Vec::new();
        let own = [
            ('A', patterns.0, at_changes.0, lowest.0),
            ('B', patterns.1, at_changes.1, lowest.1),
        ];
        for (section, groups, at_change, lowest) in own {
            let strings = [lowest, lowest + 1, lowest + 2];
            text += &format!(
                "[{section}]\nfrom = \"[{section}]\"\npattern = \"{}\"\nat-change = \"{}\"\n\
                 strings = \"{}-{}-{lowest}\"\n",
                figures(&groups), word(at_change), lowest + 2, lowest + 1,
            );
            ideas.extend(tune.comings(section).into_iter().map(|(from, until)| Idea {
                from,
                until,
                groups: groups.clone(),
                at_change,
                reach: pitches(&strings, (0, LAST_FRET)),
            }));
        }
        ideas.sort_by_key(|idea| idea.from);
        let phrases = phrases_of_text("own.toml", &text, &LoadedPatterns::load(None)).unwrap();
        let question = LineQuestion::over(chords.clone()).with_phrases(&phrases).unwrap();
        let answer = or_a_reason(made(&question))?;
        agrees(&answer.notes, &pieces(&tune, &chords, &ideas), &ideas)?;
        for (told, at) in answer.notes.iter().zip(&answer.ways[0].way.notes) {
            let eighth = eighths(told.note.onset);
            let bar = tune.bars.iter().rev().find(|bar| 2 * bar.from <= eighth).unwrap();
            let lowest = if bar.section == 'A' { lowest.0 } else { lowest.1 };
            let string = usize::from(at.place.string.number());
            prop_assert!((lowest..lowest + 3).contains(&string), "{:?}", at);
        }
    }

    /// A view holds over the whole tune: one hand in a position, or the strings of a set.
    #[test]
    fn a_view_is_kept(tune in tune(), position in 1..10u8, lowest in 1..5u8, is_set in any::<bool>()) {
        let chords = tune.chords(&guitar().0);
        let view = if is_set {
            format!("view = \"set\"\nstrings = \"{}-{}-{lowest}\"", lowest + 2, lowest + 1)
        } else {
            format!("view = \"position\"\nposition = \"{position}\"")
        };
        let text = format!("[all]\nfrom = \"1.1\"\nat-change = \"runs-on\"\n{view}\n");
        let phrases = phrases_of_text("own.toml", &text, &LoadedPatterns::load(None)).unwrap();
        let question = LineQuestion::over(chords.clone()).with_phrases(&phrases).unwrap();
        let answer = or_a_reason(made(&question))?;
        prop_assert!(!answer.notes.is_empty());
        for (told, at) in answer.notes.iter().zip(&answer.ways[0].way.notes) {
            let (string, fret) = (at.place.string.number(), at.place.fret.number());
            if is_set {
                prop_assert!((lowest..lowest + 3).contains(&string), "{:?}", at);
            } else {
                prop_assert!(fret == 0 || (position - 1..=position + 4).contains(&fret), "{:?}", at);
            }
            prop_assert_eq!(i32::from(told.note.pitch.midi()), OPEN[usize::from(string) - 1] + i32::from(fret));
        }
    }

    /// Music lands on the guide tones that are asked for at chosen bars, by the step that is asked for;
    /// every other note of it is one of the pair of its phrase or free, and it rests where nobody can read.
    #[test]
    fn music_lands_where_it_is_asked_to(
        tune in tune(),
        wanted in prop::collection::vec((any::<bool>(), any::<bool>(), 0..3usize), 12),
        in_a_phrase in prop::option::of(at_change()),
    ) {
        let chords = tune.chords(&guitar().0);
        let begins = eighths(chords.chords()[0].from);
        let mut targets: Vec<(LineTarget, u32, i32, usize)> = Vec::new();
        for (index, ((is_wanted, third, approach), two)) in
            wanted.into_iter().zip(tune.bars.windows(2)).enumerate()
        {
            let [before, bar] = two else { continue };
            let (_, Held::Chord(symbol)) = bar.held[0] else { continue };
            let is_near = targets.last().is_some_and(|(_, eighth, ..)| 2 * bar.from < eighth + 8);
            if !is_wanted || before.is_riddle() || 2 * before.from < begins || is_near {
                continue;
            }
            let degree = if third { symbol.kind.third } else { symbol.kind.seventh };
            let how = ["below", "above", "step"][approach];
            let target = format!("{degree}@{}.1:{how}", index + 2).parse().unwrap();
            let class = (class_of(symbol.root) + semitones_of(degree)) % 12;
            targets.push((target, 2 * bar.from, class, approach));
        }
        let asked = targets.iter().map(|(target, ..)| *target).collect();
        let question = LineQuestion::over(chords.clone());
        let question = match in_a_phrase {
            None => LineQuestion { targets: asked, ..question },
            // One phrase goes through all of them.
            Some(at_change) => {
                let words: Vec<String> = asked.iter().map(|it: &LineTarget| format!("{it:#}")).collect();
                let target = match words.join(" ") {
                    none if none.is_empty() => String::new(),
                    words => format!("target = \"{words}\"\n"),
                };
                let at_change = word(at_change);
                let text = format!("[all]\nfrom = \"1.1\"\nat-change = \"{at_change}\"\n{target}");
                let read = phrases_of_text("own.toml", &text, &LoadedPatterns::load(None));
                question.with_phrases(&read.unwrap()).unwrap()
            }
        };
        let answer = made(&question).unwrap();
        let phrases = answer.made_of();
        for (target, eighth, class, approach) in targets {
            let at = answer.notes.iter().position(|told| eighths(told.note.onset) == eighth);
            let landed = &answer.notes[at.unwrap()].note;
            let before = &answer.notes[at.unwrap() - 1].note;
            prop_assert_eq!(i32::from(landed.pitch.midi() % 12), class, "{}", target);
            prop_assert_eq!(before.end(), landed.onset);
            let by = i32::from(landed.pitch.midi()) - i32::from(before.pitch.midi());
            match approach {
                0 => prop_assert_eq!(by, 1, "{}", target),
                1 => prop_assert_eq!(by, -1, "{}", target),
                _ => {
                    // A step of the scale may be an augmented one.
                    let scale = phrases[before.phrase].over.scale().set();
                    let [low, high] = [before.pitch.min(landed.pitch), before.pitch.max(landed.pitch)];
                    let within = (low.midi() + 1..high.midi())
                        .any(|midi| scale.contains(PitchClass::new(i32::from(midi))));
                    prop_assert!(by != 0 && (by.abs() <= 2 || !within), "{}: {}", target, by);
                }
            }
        }
        for told in &answer.notes {
            let note = told.note;
            let phrase = &phrases[note.phrase];
            let (from, until) = (eighths(note.onset), note.end().to_f64() * 2.0);
            let last = (until.ceil() as u32).max(from + 1) - 1;
            prop_assert!(!tune.rests_at(from) && !tune.rests_at(last), "{:?}", note);
            let Role::Triad(which) = note.role else { continue };
            let spoken = match phrase.lands_at(note.onset) {
                Some(_) => phrase.target.unwrap().at,
                None => phrase.from,
            };
            let own = pair_at(&chords, eighths(spoken));
            let triad = &own[usize::from(which == WhichTriad::Second)];
            prop_assert!(triad.contains(&i32::from(note.pitch.midi() % 12)), "{:?}", told);
        }
    }
}
