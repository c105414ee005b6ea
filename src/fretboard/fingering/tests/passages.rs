//! Passages with the fingers that a teacher would write over them, each with the reason; common
//! practice, no source. The places are given, as in tablature; eighth notes at 120 unless it says
//! otherwise.

use super::*;

/// What is played where, the fingers, and why these.
type Passage = (&'static [(u8, u8)], &'static [u8], &'static str);

const AT_EASE_S: f64 = 0.25;

fn check(neck: &Neck, passages: &[Passage], seconds: f64) {
    let mut wrong = Vec::new();
    for (places, expected, why) in passages {
        let found = fingers(&best(neck, &pinned(neck, places, seconds)));
        if found != *expected {
            wrong.push(format!("{places:?}: {found:?} instead of {expected:?}, {why}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn on_a_guitar() {
    let passages: &[Passage] = &[
        (&[(1, 5), (1, 6), (1, 7), (1, 8)], &[1, 2, 3, 4], "one finger a fret"),
        (&[(2, 8), (2, 7), (2, 6), (2, 5)], &[4, 3, 2, 1], "one finger a fret, going down"),
        (
            &[(6, 3), (6, 5), (5, 2), (5, 3), (5, 5), (4, 2), (4, 4), (4, 5)],
            &[2, 4, 1, 2, 4, 1, 3, 4],
            "a major scale in second position begins with the second finger",
        ),
        (
            &[(5, 3), (5, 5), (4, 2), (4, 3), (4, 5), (3, 2), (3, 4), (3, 5)],
            &[2, 4, 1, 2, 4, 1, 3, 4],
            "the same a set of strings higher",
        ),
        (
            &[(6, 5), (6, 8), (5, 5), (5, 7), (4, 5), (4, 7), (3, 5), (3, 7)],
            &[1, 4, 1, 3, 1, 3, 1, 3],
            "the first finger holds the position of a pentatonic scale",
        ),
        (&[(1, 8), (1, 5), (2, 8), (2, 5)], &[4, 1, 4, 1], "three frets apart are 1 and 4"),
        (&[(3, 5), (3, 7), (3, 5), (3, 7)], &[1, 3, 1, 3], "two frets apart are 1 and 3"),
        (&[(2, 5), (2, 6), (2, 5), (2, 6)], &[1, 2, 1, 2], "a half step is 1 and 2"),
        (&[(4, 5), (3, 4), (2, 3)], &[3, 2, 1], "a root position triad, one finger a fret"),
        (&[(4, 9), (3, 7), (2, 8)], &[3, 1, 2], "a first inversion on 4-3-2"),
        (
            &[(3, 5), (2, 6), (1, 5)],
            &[1, 2, 1],
            "a second inversion on 3-2-1, the first finger flat",
        ),
        (&[(3, 4), (2, 3), (1, 2)], &[3, 2, 1], "a minor triad, one finger a fret"),
        (&[(6, 5), (6, 8), (5, 7), (4, 5)], &[1, 4, 3, 1], "a minor seventh arpeggio in position"),
        (&[(5, 5), (5, 8), (4, 7), (3, 5)], &[1, 4, 3, 1], "the same from string 5"),
        (&[(6, 3), (5, 2), (5, 5), (4, 3)], &[2, 1, 4, 2], "a dominant seventh arpeggio"),
        (
            &[(6, 8), (5, 7), (5, 10), (4, 9)],
            &[2, 1, 4, 3],
            "a major seventh arpeggio in seventh position",
        ),
        (&[(6, 5), (4, 7)], &[1, 3], "an octave two frets up"),
        (
            &[(5, 3), (4, 0), (4, 2), (4, 3), (3, 0), (3, 2), (2, 0), (2, 1)],
            &[3, 0, 2, 3, 0, 2, 0, 1],
            "C major at the nut, each finger its fret",
        ),
        (
            &[(6, 1), (6, 3), (5, 0), (5, 1), (5, 3), (4, 0), (4, 2), (4, 3)],
            &[1, 3, 0, 1, 3, 0, 2, 3],
            "F major at the nut",
        ),
        (&[(1, 0), (1, 1), (1, 2), (1, 3), (1, 4)], &[0, 1, 2, 3, 4], "chromatic from the nut"),
        (
            &[(4, 5), (4, 7), (4, 9), (3, 6), (3, 7)],
            &[1, 3, 4, 2, 3],
            "one note out of the box is a stretch of the fourth finger, not a shift",
        ),
        (
            &[(4, 7), (3, 4), (3, 6)],
            &[4, 1, 3],
            "a chord tone three frets above is the fourth finger's",
        ),
        (
            &[(3, 12), (3, 14), (2, 12), (2, 13)],
            &[1, 3, 1, 2],
            "the first finger opens each string",
        ),
        (&[(2, 12), (2, 13), (2, 15), (1, 12)], &[1, 2, 4, 1], "high up it is the same box"),
        (
            &[(3, 9), (2, 10), (2, 8), (3, 9), (3, 7)],
            &[3, 4, 2, 3, 1],
            "a turn within seventh position",
        ),
        (&[(2, 5), (2, 7), (2, 7), (2, 5)], &[1, 3, 3, 1], "a repeated note keeps its finger"),
        (
            &[(5, 7), (5, 8), (4, 5), (4, 7), (4, 8), (3, 5)],
            &[3, 4, 1, 3, 4, 1],
            "a minor scale across strings in fifth position",
        ),
    ];
    check(&neck("EADGBE"), passages, AT_EASE_S);
}

#[test]
fn on_a_guitar_at_speed() {
    let passages: &[Passage] = &[
        (
            &[(3, 10), (2, 10), (1, 8)],
            &[3, 4, 1],
            "two notes on one fret, fast: two fingers, the longer one on the lower string",
        ),
        (&[(1, 8), (2, 10), (3, 10)], &[1, 4, 3], "the same going down"),
    ];
    check(&neck("EADGBE"), passages, 0.1);
}

#[test]
fn on_a_guitar_with_time() {
    let passages: &[Passage] = &[(
        &[(3, 10), (2, 10), (1, 8)],
        &[3, 3, 1],
        "two notes on one fret, slow: the finger rolls",
    )];
    check(&neck("EADGBE"), passages, 1.0);
}

#[test]
fn on_a_bass() {
    let passages: &[Passage] = &[
        (&[(4, 1), (4, 2), (4, 3)], &[1, 2, 4], "low on a bass three frets are a hand"),
        (&[(4, 1), (2, 3)], &[1, 4], "an octave low down is 1 and 4"),
        (&[(3, 12), (3, 13), (3, 14), (3, 15)], &[1, 2, 3, 4], "high up one finger a fret again"),
    ];
    check(&neck("EADG"), passages, AT_EASE_S);
}

#[test]
fn on_a_ukulele() {
    let passages: &[Passage] = &[
        (&[(1, 2), (1, 3), (1, 5)], &[1, 2, 4], "one finger a fret"),
        (&[(3, 0), (3, 2), (2, 0), (2, 1), (2, 3)], &[0, 2, 0, 1, 3], "C major at the nut"),
    ];
    check(&neck("GCEA"), passages, AT_EASE_S);
}
