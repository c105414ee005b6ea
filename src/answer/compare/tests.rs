//! The survivors are checked against the shapes themselves, found on both necks without any of the
//! words above.

use super::*;
use crate::answer::find_tuning;
use crate::library::LoadedTunings;
use fretloom_fretboard::ShapeQuery;
use fretloom_theory::{PitchClass, Triad, TriadQuality};

fn compare(a: &str, b: &str) -> CompareAnswer {
    compare_with(a, b, None)
}

fn compare_with(a: &str, b: &str, pair: Option<NamedPair>) -> CompareAnswer {
    let loaded = LoadedTunings::load(None);
    let [a, b] = [a, b].map(|tuning| find_tuning(&loaded, tuning).unwrap());
    CompareAnswer::new(a, b, pair)
}

fn survives(set: &SetAnswer) -> bool {
    set.shapes == Survival::Survive
}

fn surviving(answer: &CompareAnswer) -> Vec<(String, bool)> {
    let sets = answer.sets.iter();
    sets.map(|set| (set.a.to_string(), survives(set))).collect()
}

fn on(strings: &str) -> StringSet {
    strings.parse().unwrap()
}

fn set<'a>(answer: &'a CompareAnswer, strings: &str) -> &'a SetAnswer {
    answer.sets.iter().find(|set| set.a == on(strings)).unwrap()
}

/// Computed from open pitches.
#[test]
fn fourths_keep_the_lower_sets_of_a_guitar() {
    let answer = compare("guitar-standard", "guitar-all-fourths");
    let expected = [("6-5-4", true), ("5-4-3", true), ("4-3-2", false), ("3-2-1", false)];
    assert_eq!(surviving(&answer), expected.map(|(set, survives)| (set.to_owned(), survives)));
    for (changed, why) in [
        (
            "4-3-2",
            "steps 5 4 become steps 5 5: the grips of 6-5-4 and 5-4-3; string 2 one fret down",
        ),
        (
            "3-2-1",
            "steps 4 5 become steps 5 5: the grips of 6-5-4 and 5-4-3; string 2 one fret down; \
             string 1 one fret down",
        ),
    ] {
        let set = set(&answer, changed);
        assert_eq!(set.why, why);
        assert_eq!((set.b_steps, &set.grips_of[..]), ([5, 5], &[on("6-5-4"), on("5-4-3")][..]));
        assert_eq!(
            set.ladder,
            format!("the ladder of a pair on {changed} takes the grips of 6-5-4 and 5-4-3")
        );
    }
    let why = &set(&answer, "6-5-4").why;
    assert_eq!(why, "the same strings, steps 5 5: every shape stays where it is");
}

#[test]
fn a_sixth_string_dropped_changes_its_own_set_only() {
    let answer = compare("guitar-standard", "guitar-drop-d");
    let changed: Vec<&SetAnswer> = answer.sets.iter().filter(|set| !survives(set)).collect();
    let [low] = changed[..] else { panic!("{changed:?}") };
    assert_eq!((low.a, low.a_steps, low.b_steps), (on("6-5-4"), [5, 5], [7, 5]));
    assert_eq!(
        low.why,
        "steps 5 5 become steps 7 5: new grips, on no set before; string 6 two frets up"
    );
    assert!(low.grips_of.is_empty() && answer.alone.is_empty());
}

#[test]
fn a_tuning_lowered_as_a_whole_keeps_every_shape() {
    let answer = compare("guitar-standard", "guitar-whole-step-down");
    for set in &answer.sets {
        assert!(survives(set));
        assert!(
            set.why
                .ends_with("the shapes sound two semitones lower; a chord lies two frets higher")
        );
        assert!(set.ladder.ends_with(" as before, two frets higher"), "{}", set.ladder);
    }
    let octave = compare("bass-4-string", "bass-piccolo");
    assert!(
        octave.sets.iter().all(|set| set.why.ends_with("the same frets sound an octave higher"))
    );
    assert!(octave.sets.iter().all(|set| set.ladder.ends_with(" as before")));
}

/// Strings are partners by what they sound: a low B comes below the six strings of a guitar, and a
/// high C above the four of a bass.
#[test]
fn more_strings_find_their_partners_by_pitch() {
    let seven = compare("guitar-7-string", "guitar-standard");
    assert!(seven.sets.iter().all(|set| set.a == set.b && survives(set)));
    let [alone] = &seven.alone[..] else { panic!("{:?}", seven.alone) };
    assert_eq!((alone.tuning, alone.strings), (Compared::A, on("7-6-5")));
    let back = compare("guitar-standard", "guitar-7-string");
    let [alone] = &back.alone[..] else { panic!("{:?}", back.alone) };
    assert_eq!((alone.tuning, alone.strings), (Compared::B, on("7-6-5")));
    assert_eq!(alone.why, "more strings than before: the grips of 6-5-4 and 5-4-3");
    let high_c = compare("bass-4-string", "bass-5-string-high-c");
    let sets: Vec<(StringSet, StringSet)> = high_c.sets.iter().map(|set| (set.a, set.b)).collect();
    assert_eq!(sets, [(on("4-3-2"), on("5-4-3")), (on("3-2-1"), on("4-3-2"))]);
}

#[test]
fn a_ukulele_is_the_top_of_a_guitar_with_one_string_an_octave_up() {
    let answer = compare("guitar-standard", "ukulele-high-g");
    assert!(survives(set(&answer, "3-2-1")));
    assert_eq!(
        set(&answer, "4-3-2").why,
        "steps 5 4 become steps -7 4: the same frets, with other inversions; string 4 sounds an \
         octave higher; and all of it sounds five semitones higher"
    );
    assert_eq!(
        set(&answer, "4-3-2").ladder,
        "play the ladder of a pair on 4-3-2 five frets lower, or seven frets higher; its order by \
         height changes"
    );
}

/// The rungs are computed from open pitches, G C F: A C F, then B D G, and so on.
#[test]
fn the_ladder_of_a_pair_is_told() {
    let pair = NamedPair::new(["F", "G"].map(|name| name.parse().unwrap())).unwrap();
    let answer = compare_with("guitar-standard", "guitar-all-fourths", Some(pair));
    assert_eq!(set(&answer, "5-4-3").ladder, "play the ladder of F & G on 5-4-3 as before");
    assert_eq!(
        set(&answer, "3-2-1").ladder,
        "on 3-2-1 the ladder of F & G begins F 2-0-0, G 4-2-2, F 5-5-4, G 7-7-6"
    );
}

#[test]
fn strings_that_sound_alike_hold_no_ladder() {
    let answer = compare("guitar-standard", "charango-standard");
    let top = answer.sets.last().unwrap();
    assert_eq!(top.ladder, "no ladder on 3-2-1: two of these strings sound alike");
}

/// The frets of the close shapes of a triad on three strings without the open ones, and without
/// those above fret `last`, which a shorter neck may not have.
fn grips_of(tuning: &Tuning, set: StringSet, triad: Triad, last: i32) -> Vec<[i32; 3]> {
    let query = ShapeQuery::default().on(set).without_open_strings();
    let shapes = query.shapes(&Neck::new(tuning.clone()), triad);
    let frets = shapes.iter().map(|shape| shape.frets().map(|fret| i32::from(fret.number())));
    let mut frets: Vec<[i32; 3]> =
        frets.filter(|frets| frets.iter().all(|fret| *fret <= last)).collect();
    frets.sort_unstable();
    frets
}

/// Every built-in tuning against a few: what is said to survive has the very same frets for the
/// triads that are moved along, and what is said to change has not.
#[test]
fn what_survives_is_what_the_shapes_say() {
    let loaded = LoadedTunings::load(None);
    for (b, _) in loaded.iter() {
        for a in ["guitar-standard", "guitar-all-fifths", "ukulele-high-g", "banjo-open-g"] {
            let answer = compare(a, b.id());
            let (a, _) = loaded.get(a).unwrap();
            for set in &answer.sets {
                check(a, b, set);
            }
        }
    }
}

fn check(a: &Tuning, b: &Tuning, set: &SetAnswer) {
    let pitch = |tuning: &Tuning, set: StringSet| {
        tuning.string(set.iter().next().unwrap()).unwrap().pitch()
    };
    let up = pitch(a, set.a).semitones_up_to(pitch(b, set.b));
    let last = i32::from(a.last_fret().min(b.last_fret()).number());
    let same = PitchClass::all().all(|root| {
        TriadQuality::TERTIAN.iter().all(|quality| {
            let triad = Triad::new(root, *quality);
            grips_of(a, set.a, triad, last) == grips_of(b, set.b, triad.up(up), last)
        })
    });
    let said = set.shapes != Survival::Change;
    assert_eq!(same, said, "{} and {}: {set:?}", a.id(), b.id());
}
