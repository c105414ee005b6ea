//! When stabs come, by hand, and what becomes of them.

use fretloom_fretboard::{Neck, Tuning};
use fretloom_theory::{BarSection, BarText, Chart, Meter, Quarters};

use super::*;
use crate::answer::{
    ChangesAnswer, ChangesQuestion, LineChords, Refusal, TuningAnswer, find_tuning,
};
use crate::library::LoadedTunings;

fn tuning() -> TuningAnswer {
    find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap()
}

fn chords(text: &str) -> LineChords {
    chords_with(text, &[])
}

/// The same with pairs that are settled, as `F & G@1`.
fn chords_with(text: &str, settled: &[&str]) -> LineChords {
    let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    let sections = [BarSection::unnamed(text)];
    let chart = Chart::of(BarText::read_marking(&sections, Meter::COMMON, None).unwrap().0);
    let question = settled
        .iter()
        .fold(ChangesQuestion::of(chart), |question, pair| question.settling(pair, &[]).unwrap());
    let changes = ChangesAnswer::new(&neck, &question).unwrap();
    LineChords::of_changes(&changes, changes.best())
}

fn asked(question: &CompingQuestion) -> Result<CompingAnswer, Refusal> {
    let tuning = tuning();
    CompingAnswer::new(&Neck::new(tuning.tuning.clone()), tuning, question)
}

/// Onset and duration of each stab.
fn times(text: &str) -> Vec<String> {
    let answer = asked(&CompingQuestion::over(chords(text))).unwrap();
    answer.stabs.iter().map(|stab| format!("{} {}", stab.onset, stab.duration)).collect()
}

#[test]
fn a_bar_has_two_stabs_and_each_chord_is_struck_where_it_begins() {
    for (text, expected) in [
        // One chord in 4/4: on 1, and an eighth on the off-beat of 2.
        ("| Dm7 |", vec!["0 1", "3/2 1/2"]),
        ("| Dm7 G7 |", vec!["0 1", "2 1"]),
        ("| Dm7 G7 Em7 A7 |", vec!["0 1", "1 1", "2 1", "3 1"]),
        ("| 3/4 Dm7 |", vec!["0 1", "3/2 1/2"]),
        // On the two beats of 6/8, of three eighths each.
        ("| 6/8 Dm7 |", vec!["0 1", "3/2 1"]),
        ("| 12/8 Dm7 |", vec!["0 1", "3 1"]),
        ("| 5/4 Dm7 |", vec!["0 1", "5/2 1/2"]),
        // Nothing where nothing sounds; over half a bar on its two beats.
        ("| Dm7 | N.C. | G7 |", vec!["0 1", "3/2 1/2", "8 1", "19/2 1/2"]),
        ("| N.C. G7 |", vec!["2 1", "3 1"]),
        ("pickup=1 | G7 | Cm7 |", vec!["0 1/2", "1/2 1/2", "1 1", "5/2 1/2"]),
    ] {
        assert_eq!(times(text), expected, "{text}");
    }
}

/// In a bar that cannot be read nothing is struck, and the others are comped.
#[test]
fn a_bar_with_a_fault_is_a_rest() {
    assert_eq!(times("| Dm7 | Xyz | G7 |"), ["0 1", "3/2 1/2", "8 1", "19/2 1/2"]);
}

/// Over Dm7 and G7 in one bar, which have F & G, each has one of them; a bar of Dm7 has both.
#[test]
fn both_triads_sound_in_a_bar() {
    let answer = asked(&CompingQuestion::over(chords("| Dm7 G7 | Dm7 | % |"))).unwrap();
    let names: Vec<String> =
        answer.stabs.iter().map(|stab| format!("{:#}", stab.shape.triad)).collect();
    for bar in names.chunks(2) {
        let mut bar = bar.to_vec();
        bar.sort();
        assert_eq!(bar, ["F", "G"], "{names:?}");
    }
}

/// The three notes of every stab begin and end together, are called by their triad, and are where
/// the shape is.
#[test]
fn its_score_has_three_notes_a_stab() {
    let answer = asked(&CompingQuestion::over(chords("| Dm7 | Db7 | Cmaj7 | % |"))).unwrap();
    let score = answer.score();
    let notes = score.parts[0].notes();
    assert_eq!(notes.len(), 3 * answer.stabs.len());
    assert_eq!(score.end(), Quarters::whole(16));
    for (stab, notes) in answer.stabs.iter().zip(notes.chunks(3)) {
        let names = stab.shape.triad.notes().map(|name| name.to_string());
        for note in notes {
            assert_eq!((note.onset(), note.duration()), (stab.onset, stab.duration));
            assert!(names.contains(&note.pitch().name().to_string()), "{names:?}");
        }
    }
    let neck = Neck::new(tuning().tuning);
    let columns = answer.tab(&neck);
    let struck = columns.columns().filter(|column| column.notes.len() == 3).count();
    assert_eq!(struck, answer.stabs.len());
}

#[test]
fn where_there_is_no_way_the_bar_the_chord_and_what_would_help_are_told() {
    let said = |question: &CompingQuestion| asked(question).unwrap_err().to_string();
    let over = || CompingQuestion::over(chords_with("| Dm7 | G7 |", &["F & G@1", "F & G@2"]));
    for (question, words) in [
        (
            CompingQuestion { strings: "3-2-1".parse().ok(), frets: "1-3".parse().ok(), ..over() },
            "cannot comp this: bar 1, Dm7 (F & G): G has no close shape on strings 3-2-1 at frets \
             1–3; expected more strings or more frets",
        ),
        (
            CompingQuestion { strings: "3-2-1".parse().ok(), area: 2, ..over() },
            "cannot comp this: no 2 frets side by side have a shape of every triad on strings \
             3-2-1; expected --area 4",
        ),
        (
            CompingQuestion { strings: "3-2".parse().ok(), ..over() },
            "3-2 does not hold a triad: expected three strings, as in 3-2-1",
        ),
        (
            CompingQuestion { strings: "7-6-5".parse().ok(), ..over() },
            "there are no strings 7-6-5 on this instrument: expected strings from 1, the one nearest \
             the floor, to 6",
        ),
    ] {
        assert_eq!(said(&question), words);
    }
    let narrow = CompingQuestion {
        strings: "3-2-1".parse().ok(),
        frets: "4-9".parse().ok(),
        top: 1,
        ..over()
    };
    assert_eq!(
        said(&narrow),
        "cannot comp this: bar 1, Dm7 (F & G): the top voice would go further than 1 \
         semitone on strings 3-2-1 at frets 4–9; expected --top 2"
    );
}
