//! Comping by hand, beside a slow second search, and by laws.

use fretloom_theory::{SpelledTriad, TriadPair};

use super::search::{Stuck, cheapest};
use super::stage::{Stage, Steps};
use super::*;
use crate::{FretRange, Hand, Neck, StringSet, Tuning};

mod slow;

fn neck() -> Neck {
    Neck::new(Tuning::read("EADGBE").unwrap())
}

fn pair(first: &str, second: &str) -> TriadPair {
    let triad = |name: &str| name.parse::<SpelledTriad>().unwrap().triad();
    TriadPair::in_order(triad(first), triad(second)).unwrap()
}

fn both(first: &str, second: &str) -> CompedChord {
    CompedChord::Both(pair(first, second))
}

/// Frets of every stab.
fn frets(comping: &Comping) -> Vec<[u8; 3]> {
    comping.stabs().iter().map(|stab| stab.shape.frets().map(|fret| fret.number())).collect()
}

fn on(strings: &str) -> StringSet {
    strings.parse().unwrap()
}

fn at(range: &str) -> FretRange {
    range.parse().unwrap()
}

/// F & G on strings 3-2-1 between frets 4 and 9 are F 5-6-5 and G 7-8-7, top voices A and B; of E♭ there
/// is 8-8-6 with B♭ on top alone. Computed by hand from the open strings.
#[test]
fn where_only_one_shape_of_each_lies_there_that_is_taken() {
    let query = CompingQuery::over([both("F", "G"), both("Eb", "F")]).on(on("3-2-1"));
    let comping = query.clone().within(at("4-9")).comping(&neck()).unwrap();
    // A B B♭ A and on to A costs 2 + 1 + 1 semitones, and the F that is struck again; A B A B♭ A more
    // in frets.
    assert_eq!(frets(&comping), [[5, 6, 5], [7, 8, 7], [8, 8, 6], [5, 6, 5]]);
    assert_eq!(comping.area(), at("4-9"));
    // Struck three times round: 2 + 6, 1 + 2 (one up, none, one down), 1 + 6, and F again.
    assert_eq!(comping.cost(), 8 + 3 + 7 + 9);
    let once = query.within(at("4-9")).once().comping(&neck()).unwrap();
    assert_eq!(once.cost(), 8 + 3 + 7);
}

/// One stab has one triad, and of two over one pair each has its own.
#[test]
fn a_chord_with_time_for_one_stab_has_one() {
    let form = [CompedChord::Either(pair("F", "G")), both("F", "G")];
    let comping = CompingQuery::over(form).comping(&neck()).unwrap();
    let stabs = comping.stabs();
    assert_eq!(stabs.iter().map(|stab| stab.chord).collect::<Vec<_>>(), [0, 1, 1]);
    assert_ne!(stabs[1].which, stabs[2].which);
}

/// The condition that fails is named, and what is offered works.
#[test]
fn where_there_is_none_it_says_what_fails_and_what_would_help() {
    let neck = neck();
    let said = |query: &CompingQuery| query.comping(&neck).unwrap_err().to_string();
    let f_and_g = CompingQuery::over([both("F", "G")]);
    assert_eq!(said(&CompingQuery::over([])), "there is no chord; expected at least one");
    assert_eq!(
        said(&f_and_g.clone().on(on("3-2-1")).within(at("1-3"))),
        "the second triad of chord 1 has no shape on these strings at these frets; expected more \
         strings or more frets"
    );
    // B♭ 3-3-1 takes 42 mm; C 5-5-3 takes 39.
    let bb_and_c = CompingQuery::over([both("Bb", "C")]);
    let small = Hand::reaching_mm(40.0).unwrap();
    assert_eq!(
        said(&bb_and_c.on(on("3-2-1")).within(at("1-5")).for_hand(small)),
        "this hand holds no shape of the first triad of chord 1 there; expected other strings, \
         higher frets or a longer reach"
    );
    assert_eq!(
        said(&f_and_g.clone().on(on("3-2-1")).in_any_area_of(2)),
        "no 2 frets have a shape of every triad; an area of 4 frets would do"
    );
    assert_eq!(
        said(&f_and_g.clone().on(on("3-2-1")).within(at("4-9")).with_top_steps_up_to(1)),
        "the top voice cannot go on to chord 1 at frets 4-9 in steps of at most 1 semitone; 2 \
         semitones for the top voice would do"
    );
    assert!(f_and_g.on(on("3-2-1")).in_any_area_of(4).comping(&neck).is_ok());
}

/// Two stages of two spots each: there is one step on, from the second spot to the first, and home
/// only from the second to the second.
#[test]
fn a_way_that_goes_through_may_not_come_home() {
    let only = |from: usize, to: usize| {
        Steps::between(2, 2, move |a, b| ((a, b) == (from, to)).then_some(4))
    };
    let stage = |steps: Steps| Stage { own: vec![1, 2].into(), steps: steps.into() };
    let stages = [stage(Steps::default()), stage(only(1, 0))];
    assert_eq!(cheapest(&stages, None), Ok((7, vec![1, 0])));
    assert_eq!(cheapest(&stages, Some(&only(1, 1))), Err(Stuck::Home));
    assert_eq!(cheapest(&stages, Some(&only(0, 1))), Ok((11, vec![1, 0])));
    let stuck =
        [stage(Steps::default()), stage(only(1, 0)), stage(Steps::between(2, 2, |_, _| None))];
    assert_eq!(cheapest(&stuck, None), Err(Stuck::At(2)));
    let relief = CompingRelief { semitones: Some(4), frets: Some(7) };
    assert_eq!(
        CompingError::NoRound { semitones: 3, relief }.to_string(),
        "the top voice cannot go from the last chord to the first in steps of at most 3 semitones; \
         an area of 7 frets would do, or 4 semitones for the top voice, and so would playing it once"
    );
}
