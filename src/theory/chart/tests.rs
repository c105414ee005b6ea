//! Charts by hand.

use super::*;
use crate::Meter;

fn chart(text: &str) -> Chart {
    Chart::of(BarText::read(text, Meter::COMMON).unwrap())
}

/// A meter that the first bar writes is that of the whole text, so that both ways are one chart.
#[test]
fn the_meter_stands_at_the_beginning_or_beside_the_text() {
    let written = chart("[A] 3/4 C | F");
    let beside = BarText::read("[A] C | F", "3/4".parse().unwrap()).unwrap();
    assert_eq!(written, Chart::of(beside));
    assert_eq!(written.to_string(), "| 3/4 [A] C | F |");
    assert_eq!(chart(&written.to_string()), written);
    assert_eq!(chart("4/4 C | F").to_string(), "| C | F |");
    let pick_up = chart("pickup=1 | N.C. | 3/4 C");
    assert_eq!(pick_up.to_string(), "pickup=1 | N.C. | 3/4 C |");
}

/// Number, its parts of a bar of 4/4, and how it is written.
#[test]
fn beats_are_numbers_with_a_part_after_them() {
    for (typed, number, printed) in [
        ("1", 1.0, "1"),
        (" 3 ", 3.0, "3"),
        ("2&", 2.5, "2&"),
        ("2+2/4", 2.5, "2&"),
        ("2+1/3", 7.0 / 3.0, "2+1/3"),
        ("4+0/3", 4.0, "4"),
        ("256", 256.0, "256"),
    ] {
        let beat: ChartBeat = typed.parse().unwrap();
        assert_eq!((beat.to_f64(), beat.to_string()), (number, printed.to_owned()));
        assert_eq!(beat.to_string().parse(), Ok(beat));
    }
    for typed in ["", "0", "-1", "257", "1.5", "2+1", "2+3/3", "2+1/0", "x", "&", "+1/2", "2&&"] {
        let said = typed.parse::<ChartBeat>().unwrap_err().to_string();
        assert!(said.ends_with("expected a beat from 1, as in 2, 2& or 2+1/3"), "{said}");
    }
    assert_eq!(ChartBeat::nearest(2.5).unwrap().to_string(), "2&");
    for number in [0.5, -1.0, 300.0, f64::NAN, f64::INFINITY] {
        assert_eq!(ChartBeat::nearest(number), None, "{number}");
    }
}

/// Bars are those that are heard; a pick-up is bar 0, on its beat.
#[test]
fn choices_are_found_in_the_chorus() {
    let chorus =
        chart("pickup=1 | G7 | |: 6/8 C :| 4/4 Dm7 G7 Em7 |").chorus(OptionalChords::Played);
    let moment = |bar, beat: &str| {
        let choice = ChartChoice::nothing(bar, beat.parse().unwrap());
        Chart::moment_of(&chorus, &choice).map(|moment| moment.to_string())
    };
    assert_eq!(moment(0, "4").as_deref(), Some("0"));
    assert_eq!(moment(0, "1"), None);
    assert_eq!(moment(1, "1").as_deref(), Some("1"));
    assert_eq!(moment(2, "2").as_deref(), Some("11/2"));
    assert_eq!(moment(2, "3"), None);
    assert_eq!(moment(3, "2+1/3").as_deref(), Some("25/3"));
    assert_eq!(moment(4, "1"), None);
    assert_eq!(moment(u64::MAX, "1"), None);
}

#[test]
fn each_moment_has_one_choice() {
    let mut chart = chart("| Dm7 | G7 | C |");
    let choice = |bar, scale: &str| ChartChoice {
        scale: Some(scale.parse().unwrap()),
        ..ChartChoice::nothing(bar, ChartBeat::FIRST)
    };
    for (bar, scale) in [(3, "C Lydian"), (1, "D Dorian"), (2, "G altered"), (3, "C major")] {
        chart.settle(choice(bar, scale));
    }
    let settled: Vec<String> = chart
        .choices
        .iter()
        .map(|choice| format!("{} {}", choice.bar, choice.scale.as_ref().unwrap()))
        .collect();
    assert_eq!(settled, ["1 D Dorian", "2 G altered", "3 C Ionian"]);
}

/// Moments that belong to something beside the chart go along with their chords, as what is settled does.
#[test]
fn moments_go_along_with_their_chords() {
    let chart = Chart::of(BarText::read("| Dm7 G7 | Cmaj7 | A7 |", Meter::COMMON).unwrap());
    let moments: Vec<(u64, ChartBeat)> = [(1, "3"), (2, "1"), (3, "1"), (3, "4")]
        .map(|(bar, beat)| (bar, beat.parse().unwrap()))
        .to_vec();
    let moved = |bars, typed: &str| -> Vec<Option<u64>> {
        let retyped = chart.retyped_with(bars, typed, &moments).unwrap();
        retyped.moments.iter().map(|moment| moment.map(|(bar, _)| bar)).collect()
    };
    assert_eq!(moved(0..0, "F | F"), [Some(3), Some(4), Some(5), Some(5)]);
    assert_eq!(moved(0..1, "Dm7 Db7"), [None, Some(2), Some(3), Some(3)]);
    assert_eq!(moved(1..2, ""), [Some(1), None, Some(2), Some(2)]);
}
