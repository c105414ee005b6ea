//! Lines by note names, worked out by hand.

use super::*;
use crate::time::{Bars, Meter};
use crate::{
    ChordScale, Direction, Inversion, NamedPitch, PitchClassSet, SpelledTriad, TriadPair,
    WhichTriad,
};

fn pitch(name: &str) -> Pitch {
    name.parse::<NamedPitch>().unwrap().pitch()
}

fn pair(first: &str, second: &str) -> TriadPair {
    let [first, second] = [first, second].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    TriadPair::in_order(first, second).unwrap()
}

fn beats(count: u32) -> Quarters {
    Quarters::whole(count)
}

/// F & G over Dm7 for so many bars.
fn f_and_g(pattern: &str, bars: u32) -> Phrase {
    let over = ChordScale::over("Dm7".parse().unwrap(), "D Dorian".parse().unwrap());
    let phrase = Phrase::new(Quarters::ZERO, beats(4 * bars), over, pair("F", "G"));
    Phrase { pattern: pattern.parse().unwrap(), ..phrase }
}

fn reach(lowest: &str, highest: &str) -> Reach {
    Reach::between(pitch(lowest).midi(), pitch(highest).midi())
}

/// The sharps and flats of everyday names, in order of time.
fn names(line: &Line) -> String {
    let name = |note: &PhraseNote| format!("{:#}", NamedPitch::everyday(note.pitch));
    line.notes().iter().map(name).collect::<Vec<_>>().join(" ")
}

fn made(phrases: &[Phrase], reach: &Reach) -> Line {
    Line::make(phrases, reach).unwrap()
}

/// Whose notes they are: `1`, `2` or `-`.
fn roles(line: &Line) -> String {
    let sign = |note: &PhraseNote| match note.role {
        Role::Triad(WhichTriad::First) => '1',
        Role::Triad(WhichTriad::Second) => '2',
        Role::Free => '-',
    };
    line.notes().iter().map(sign).collect()
}

/// Threes up the ladder: F A C, G B D, A C F, B D G, C F A, D G B; then the octave.
#[test]
fn threes_climb_the_ladder() {
    let line = made(&[f_and_g("123", 3)], &reach("F3", "F6"));
    let expected = "F3 A3 C4 G3 B3 D4 A3 C4 F4 B3 D4 G4 C4 F4 A4 D4 G4 B4 F4 A4 C5 G4 B4 D5";
    assert_eq!(names(&line), expected);
    assert_eq!(roles(&line), "111222".repeat(4));
    assert_eq!(line.turns(), 0);
}

/// On strings 4-3-2 of a guitar up to the twelfth fret, D3 to B4: C F A is the highest F, D G B the
/// highest G. Then down again, and the top group is not played twice.
#[test]
fn a_climb_turns_without_a_doubled_top_note() {
    let line = made(&[f_and_g("123", 4)], &reach("F3", "B4"));
    let up = "F3 A3 C4 G3 B3 D4 A3 C4 F4 B3 D4 G4 C4 F4 A4 D4 G4 B4";
    let down = "C4 F4 A4 B3 D4 G4 A3 C4 F4 G3 B3 D4 F3 A3";
    assert_eq!(names(&line), format!("{up} {down}"));
    assert_eq!(line.turns(), 1);
}

/// Linked to the nearest note of the other triad; where two are equally near, on upwards. By hand:
/// after F C A the nearest notes of G are G and B, a whole step away each: B, the third figure of
/// D G B. G follows it. The nearest note of F to G is F or A: A. It is the first figure of A C F.
#[test]
fn a_link_decides_where_a_group_lands() {
    let travel = Travel::Linked(Link::Nearest, Direction::Up);
    let phrase = Phrase { travel, ..f_and_g("132 32", 1) };
    let line = made(std::slice::from_ref(&phrase), &reach("F3", "C6"));
    assert_eq!(names(&line), "F3 C4 A3 B3 G3 A3 F4 C4");
    let down = Travel::Linked(Link::Nearest, Direction::Down);
    let line = made(&[Phrase { travel: down, ..phrase.clone() }], &reach("C3", "C6"));
    assert_eq!(names(&line), "F3 C4 A3 G3 D3 C3 A3 F3");
    let above = Travel::Linked(Link::Above, Direction::Up);
    let line = made(&[Phrase { travel: above, ..phrase }], &reach("C3", "C6"));
    assert_eq!(names(&line), "F3 C4 A3 B3 G3 A3 F4 C4");
}

/// `=` stays on the triad of the group before, in the shape in hand.
#[test]
fn a_group_may_stay_on_its_triad() {
    let line = made(&[f_and_g("132 =32", 1)], &reach("F3", "C6"));
    assert_eq!(names(&line), "F3 C4 A3 C4 A3 G3 D4 B3");
    assert_eq!(roles(&line), "11111222");
}

/// Figures over an octave, the highest an octave down, double stops, the first note again, a rest, a
/// held note and an accent.
#[test]
fn every_sign_sounds_as_it_is_written() {
    let line = made(&[f_and_g("(13)0 4_-p >2", 1)], &reach("C3", "C6"));
    // F and C together, C below; G up an octave held; a rest; F again; C, the second of A C F; then
    // B and G of B D G together.
    assert_eq!(names(&line), "F3 C4 C3 G4 F3 C4 B3 G4");
    let told: Vec<(Quarters, Quarters, bool)> =
        line.notes().iter().map(|note| (note.onset, note.duration, note.accent)).collect();
    let at = |eighths| Quarters::new(eighths, 2).unwrap();
    assert_eq!(told[2], (at(1), at(1), false));
    assert_eq!(told[3], (at(2), at(2), false));
    assert_eq!(told[4], (at(5), at(1), false));
    assert_eq!(told[5], (at(6), at(1), true));
    assert_eq!(roles(&line), "11121122");
}

/// 4 + 3 and a half step below into what follows; at the end into what would follow.
#[test]
fn approach_notes_lead_to_what_follows() {
    let line = made(&[f_and_g("1232 321 a", 1)], &reach("E3", "C6"));
    // F A C A, D B G, then a half step below A, with which A C F would begin.
    assert_eq!(names(&line), "F3 A3 C4 A3 D4 B3 G3 Ab3");
    assert_eq!(roles(&line), "1111222-");
    let enclosed = made(&[f_and_g("Aa1 s1", 1)], &reach("E3", "C6"));
    // Around F; from F up to G there is no scale note between: the one above, A. Around A; B C.
    assert_eq!(names(&enclosed), "Gb3 E3 F3 A3 G3 Bb3 Ab3 A3");
}

/// By hand: a group of five in eighths begins on beat 1 with the same triad after five bars.
#[test]
fn a_cross_rhythm_of_five_comes_round_after_five_bars() {
    let line = made(&[Phrase { travel: Travel::Stay, ..f_and_g("132 32", 6) }], &reach("F3", "C6"));
    let bars = Bars::of(Meter::COMMON);
    let begins: Vec<u64> = line
        .notes()
        .iter()
        .filter(|note| note.group % 2 == 0)
        .filter(|note| line.notes().iter().find(|n| n.group == note.group) == Some(note))
        .filter_map(|note| bars.at(note.onset).filter(|at| at.into.is_zero()).map(|at| at.index))
        .collect();
    assert_eq!(begins, [0, 5]);
}

/// F & G over Dm7 into B, the third of G7: `4 + 3`, and the half step below it on the and of 4.
#[test]
fn a_phrase_lands_on_the_third_of_the_next_chord() {
    let target = Target {
        notes: PitchClassSet::EMPTY.with(pitch("B3").pitch_class()),
        at: beats(4),
        length: beats(2),
        approach: Approach::HalfStepBelow,
        timing: Timing::OnTime,
        pair: Some(pair("Ab", "Bb")),
    };
    let phrase = Phrase { target: Some(target), ..f_and_g("1232 321 a", 1) };
    let line = made(std::slice::from_ref(&phrase), &reach("E3", "C6"));
    let last: Vec<&PhraseNote> = line.notes().iter().rev().take(2).collect();
    assert_eq!(last[0].pitch.pitch_class(), pitch("B3").pitch_class());
    assert_eq!((last[0].onset, last[0].duration, last[0].role), (beats(4), beats(2), Role::Free));
    assert_eq!(last[1].pitch.semitones_up_to(last[0].pitch), 1);
    let early = Target { timing: Timing::Early(Quarters::EIGHTH), ..target };
    let line = made(&[Phrase { target: Some(early), ..phrase.clone() }], &reach("E3", "C6"));
    let last = line.notes().last().unwrap();
    assert_eq!((last.onset, last.end()), (Quarters::new(7, 2).unwrap(), beats(6)));
    let late = Target { timing: Timing::Late(Quarters::EIGHTH), ..target };
    let line = made(&[Phrase { target: Some(late), ..phrase }], &reach("E3", "C6"));
    let [.., lead, last] = line.notes() else { panic!() };
    assert_eq!((lead.onset, last.onset), (beats(4), Quarters::new(9, 2).unwrap()));
    assert_eq!(lead.pitch.semitones_up_to(last.pitch), 1);
}

/// A stab of two notes, a held note and an approach before the pair comes in: free notes are never
/// called notes of the pair, though F and A are in it.
#[test]
fn free_notes_are_entered_one_by_one() {
    let entered = Phrase {
        to: beats(2),
        notes: NotesFrom::Entered("F3+A3:8 -:8 E4:8 Eb4:8".parse().unwrap()),
        ..f_and_g("123", 1)
    };
    let pair = Phrase { from: beats(2), start: Start::FromBefore, ..f_and_g("123", 1) };
    let line = made(&[entered.clone(), pair], &reach("E3", "C6"));
    assert!(names(&line).starts_with("F3 A3 E4 Eb4 "), "{}", names(&line));
    assert!(roles(&line).starts_with("----1"), "{}", roles(&line));
    // The pair comes in by step after E flat.
    let after = line.notes()[4].pitch;
    assert!(pitch("Eb4").semitones_up_to(after).abs() <= 2, "{after:?}");
    let said = Line::make(&[entered], &reach("A3", "C6")).unwrap_err().to_string();
    assert!(said.contains("F3 is not among the notes that may be used; expected"), "{said}");
}

/// F A C up the ladder, as low as each phrase may be; the half step that ends the first leads to the
/// second, on the notes of the first.
#[test]
fn a_phrase_stays_on_notes_of_its_own() {
    let low = Phrase { to: beats(2), reach: Some(reach("F3", "E4")), ..f_and_g("123 a", 1) };
    let high = Phrase { from: beats(2), reach: Some(reach("F4", "C6")), ..f_and_g("123", 1) };
    let line = made(&[low.clone(), high.clone()], &reach("C3", "C6"));
    assert_eq!(names(&line), "F3 A3 C4 E4 F4 A4 C5 G4");
    // Without notes of its own it has those of the line.
    let of_line = [low, high].map(|phrase| Phrase { reach: None, ..phrase });
    let line = made(&of_line, &reach("E3", "C6"));
    assert_eq!(names(&line), "F3 A3 C4 E3 F3 A3 C4 G3");
}

/// Over a change of chord the pattern runs on: the group in hand goes on with the new pair.
#[test]
fn a_phrase_runs_on_over_the_change() {
    let over = ChordScale::over("G7".parse().unwrap(), "G Mixolydian".parse().unwrap());
    let second = Phrase {
        from: beats(4),
        to: beats(8),
        over,
        pair: pair("Dm", "Em"),
        begin: Begin::RunsOn,
        ..f_and_g("123", 1)
    };
    let line = made(&[f_and_g("123", 1), second], &reach("F3", "C6"));
    // F A C, G B D, A C | the third figure on F's turn, now Dm, nearest to C; then Em above.
    let [first, after] = [&line.notes()[..8], &line.notes()[8..]];
    assert_eq!(first.len(), 8);
    assert_eq!(after[0].role, Role::Triad(WhichTriad::First));
    assert_eq!(after[0].pitch, pitch("D4"));
    assert!(after[1..4].iter().all(|note| note.role == Role::Triad(WhichTriad::Second)));
}

#[test]
fn an_arc_has_one_highest_note_in_its_third_quarter() {
    let phrase = Phrase { travel: Travel::Arc, start: Start::FromBefore, ..f_and_g("123", 3) };
    let line = made(&[phrase], &reach("E3", "E5"));
    let pitches: Vec<Pitch> = line.notes().iter().map(|note| note.pitch).collect();
    let top = *pitches.iter().max().unwrap();
    let at: Vec<usize> =
        pitches.iter().enumerate().filter(|(_, pitch)| **pitch == top).map(|(at, _)| at).collect();
    assert_eq!(at.len(), 1);
    assert!((12..18).contains(&at[0]), "{at:?} of {}", pitches.len());
}

#[test]
fn what_cannot_be_played_says_which_condition_fails() {
    for (phrase, reach, words) in [
        (
            f_and_g("123", 1),
            reach("F3", "B3"),
            "phrase 1: it cannot begin with the first triad in root",
        ),
        (
            f_and_g("123", 1),
            reach("F3", "C4"),
            "no inversion of the second triad has all the notes of 123",
        ),
        (f_and_g("a123", 1), reach("F3", "C5"), "the note that leads to F3 is not among"),
        (
            Phrase { start: Start::Bass(pitch("G3")), ..f_and_g("123", 1) },
            reach("F3", "C6"),
            "cannot begin with the first triad on that note",
        ),
    ] {
        let said = Line::make(&[phrase], &reach).unwrap_err().to_string();
        assert!(said.contains(words) && said.contains("; expected"), "{said}");
    }
}

/// A rest ends a phrase that only plays whole groups.
#[test]
fn a_phrase_may_end_after_its_last_whole_group() {
    let phrase = Phrase { ending: Ending::WholeGroup, ..f_and_g("123", 1) };
    assert_eq!(names(&made(&[phrase], &reach("F3", "C6"))), "F3 A3 C4 G3 B3 D4");
    let start = Start::Lowest(Inversion::First);
    let phrase = Phrase { start, ..f_and_g("321", 1) };
    let line = made(&[phrase.displaced(Quarters::EIGHTH).unwrap()], &reach("F3", "C6"));
    assert_eq!(names(&line), "F4 C4 A3 G4 D4 B3 A4");
    assert_eq!(line.notes()[0].onset, Quarters::EIGHTH);
}

/// The middle note of each triad an octave higher.
#[test]
fn a_wide_phrase_leaps() {
    let line = made(&[f_and_g("123", 1).wide()], &reach("F3", "C6"));
    assert_eq!(names(&line), "F3 A4 C4 G3 B4 D4 A3 C5");
}

/// The same onsets and figures on the next chord.
#[test]
fn an_answer_has_the_onsets_of_its_question() {
    let over = ChordScale::over("G7".parse().unwrap(), "G Mixolydian".parse().unwrap());
    let question = Phrase { rhythm: "4. 8 -8 8".parse().unwrap(), ..f_and_g("132 32", 1) };
    let answer = question.answer(beats(4), over, pair("Dm", "Em"), None).unwrap();
    let line = made(&[question, answer], &reach("F3", "C6"));
    let onsets = |phrase: usize, from: u32| -> Vec<Quarters> {
        let of_it = line.notes().iter().filter(|note| note.phrase == phrase);
        of_it.map(|note| note.onset.checked_sub(beats(from)).unwrap()).collect()
    };
    assert_eq!(onsets(0, 0), onsets(1, 4));
    assert_eq!(line.up(12).unwrap().notes()[0].pitch, pitch("F4"));
}
