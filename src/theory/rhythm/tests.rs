use proptest::prelude::*;

use super::*;
use crate::{ComesRound, Meter, Pattern};

fn rhythm(text: &str) -> Rhythm {
    text.parse().unwrap()
}

fn round(pattern: &str, rhythm: &str, meter: &str) -> (u64, u64) {
    let pattern: Pattern = pattern.parse().unwrap();
    let round = ComesRound::of(&pattern, &rhythm.parse().unwrap(), meter.parse().unwrap());
    round.map(|round| (round.bars, round.times)).unwrap()
}

fn quarters(numerator: u64, denominator: u32) -> Quarters {
    Quarters::new(numerator, denominator).unwrap()
}

/// By hand: what each value is in quarter notes.
#[test]
fn values_are_as_long_as_they_are_written() {
    let read = rhythm("4.. 8~16 -2 3:2(8 >8 -8) | 1");
    let told: Vec<(Quarters, ValueKind)> =
        read.pick_up().iter().map(|value| (value.length, value.kind)).collect();
    assert_eq!(
        told,
        [
            (quarters(7, 4), ValueKind::Note),
            (quarters(3, 4), ValueKind::Note),
            (quarters(2, 1), ValueKind::Rest),
            (quarters(1, 3), ValueKind::Note),
            (quarters(1, 3), ValueKind::Accent),
            (quarters(1, 3), ValueKind::Rest),
        ]
    );
    assert_eq!((read.round(), read.notes_a_round()), (Some(Quarters::whole(4)), 1));
    assert_eq!(rhythm("Triplets").round(), Some(Quarters::ONE));
}

/// Groups against bars, as two independent computations outside the project have them: threes,
/// fives and sevens come round after as many bars of 4/4, eights in one; in 3/4 threes in one.
/// A group that stands alone swaps the triads, which takes twice as long where the count is odd.
#[test]
fn patterns_come_round_with_the_bar() {
    for (pattern, rhythm, meter, expected) in [
        ("123", "8", "4/4", (3, 8)),
        ("123", "8", "3/4", (1, 2)),
        ("132 32", "8", "4/4", (5, 8)),
        ("132 32", "8", "3/4", (5, 6)),
        ("1234 321", "8", "4/4", (7, 8)),
        ("1234 321", "8", "3/4", (7, 6)),
        ("123 321", "8", "4/4", (3, 4)),
        ("123 321", "8", "3/4", (1, 1)),
        ("123321", "8", "3/4", (2, 2)),
        ("1232 321 a", "8", "4/4", (1, 1)),
        ("1234", "triplets", "4/4", (2, 6)),
        ("123", "4. 8", "4/4", (3, 4)),
        ("123", "8", "6/8", (1, 2)),
    ] {
        assert_eq!(round(pattern, rhythm, meter), expected, "{pattern} {rhythm} {meter}");
    }
}

#[test]
fn a_wrong_value_is_pointed_at() {
    for (text, at, expected) in [
        ("", 1, "at least one note"),
        ("-8", 3, "at least one note"),
        ("8 |", 4, "at least one note"),
        ("| 8", 1, "one | alone"),
        ("8 | 8 | 8", 7, "one | alone"),
        ("8 7", 3, "a value: 1 2 4"),
        ("8 0", 3, "a value: 1 2 4"),
        ("8,", 2, "a space after"),
        ("8....", 5, "at most three dots"),
        ("8~", 3, "a value: 1 2 4"),
        ("-", 2, "a value: 1 2 4"),
        ("3:2", 1, "a tuplet as in"),
        ("8 3:2()", 7, "a tuplet as in"),
        ("0:2(8)", 1, "a tuplet as in"),
        ("3:99(8)", 1, "a tuplet as in"),
        ("3:2(8", 6, "a value: 1 2 4"),
        ("99999999999", 1, "a value: 1 2 4"),
        ("swing", 1, "a value: 1 2 4"),
    ] {
        let error = text.parse::<Rhythm>().unwrap_err();
        assert_eq!(error.at(), at, "{text}: {error}");
        assert!(error.expected().contains(expected), "{text}: {error}");
    }
    let said = "8 ".repeat(1_000_000).parse::<Rhythm>().unwrap_err().to_string();
    assert!(said.contains("at most") && said.len() < 200, "{said}");
}

fn any_rhythm() -> impl Strategy<Value = String> {
    let value =
        prop::sample::select(vec!["8", "4.", "-8", ">16", "4~16", "3:2(8 -8 8)", "5:4(16)"]);
    prop::collection::vec(value, 1..9).prop_map(|values| format!("8 {}", values.join(" ")))
}

proptest! {
    #[test]
    fn what_is_printed_is_read_again(text in any_rhythm()) {
        let read = rhythm(&text);
        prop_assert_eq!(rhythm(&read.to_string()), read);
    }

    /// Walks bar by bar until sign and value begin together, which shares nothing with the formula.
    #[test]
    fn coming_round_is_what_walking_finds(
        text in any_rhythm(),
        pattern in prop::sample::select(vec!["1", "12", "123", "1234", "132 32", "1234 321", "12 3 1"]),
        units in 2..8u8,
    ) {
        let (read, meter) = (rhythm(&text), Meter::new(units, 4).unwrap());
        let read_pattern: Pattern = pattern.parse().unwrap();
        let notes: Vec<Quarters> = onsets(&read, 40_000);
        let period = read_pattern.period();
        let bar = meter.bar();
        let starts = notes.iter().step_by(period).skip(1);
        // A rhythm that begins with a note begins each round with one.
        let at_round = |onset: &Quarters| {
            onset.divided_with_rest(read.round().unwrap()).unwrap().1.is_zero()
                && onset.divided_with_rest(bar).unwrap().1.is_zero()
        };
        let walked = starts.copied().find(at_round);
        let found = ComesRound::of(&read_pattern, &read, meter).unwrap();
        if let Some(walked) = walked {
            prop_assert_eq!(bar.times(u32::try_from(found.bars).unwrap()), Some(walked));
        } else {
            prop_assert!(found.times * read_pattern.length() as u64 > 30_000);
        }
    }
}

/// When the first notes begin.
fn onsets(rhythm: &Rhythm, count: usize) -> Vec<Quarters> {
    let mut now = Quarters::ZERO;
    let mut found = Vec::new();
    for value in rhythm.values() {
        if value.kind != ValueKind::Rest {
            found.push(now);
        }
        if found.len() == count {
            break;
        }
        now = now.checked_add(value.length).unwrap();
    }
    found
}
