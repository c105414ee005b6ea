//! The search beside one that tries everything, and finds its own shapes.

use fretloom_theory::{Pitch, SpelledTriad, Triad, WhichTriad};
use proptest::prelude::*;

use super::*;
use crate::{Ease, Fret, Place, StringNumber};

/// A shape, as it is found by trying every three places.
#[derive(Clone, Copy)]
struct Grip {
    which: WhichTriad,
    places: [Place; 3],
    pitches: [u8; 3],
    own: u32,
}

/// Every close shape of a triad on three strings side by side that a hand holds.
fn grips(neck: &Neck, which: WhichTriad, triad: Triad, frets: FretRange) -> Vec<Grip> {
    let mut found = Vec::new();
    let on = |string: u8| {
        let string = StringNumber::new(string).unwrap();
        let all = neck.places().filter(move |(place, _)| place.string == string);
        let there = all.filter(|(place, _)| frets.contains(neck.fret_number(*place)));
        there.collect::<Vec<(Place, Pitch)>>()
    };
    let count = neck.tuning().string_count() as u8;
    for low in 3..=count {
        for (one, a) in on(low) {
            for (two, b) in on(low - 1) {
                for (three, c) in on(low - 2) {
                    let pitches = [a, b, c].map(Pitch::midi);
                    // By the pitch of the open strings, which a re-entrant tuning has in another order.
                    let open = |at: Place| neck.pitch_at(Place::new(at.string, Fret::OPEN));
                    let mut going_up = [(open(one), a), (open(two), b), (open(three), c)];
                    going_up.sort_unstable();
                    let rises = going_up.windows(2).all(|two| two[0].1 < two[1].1);
                    let [(_, lowest), _, (_, highest)] = going_up;
                    let is_close = highest.midi().saturating_sub(lowest.midi()) < 12;
                    let mut classes = pitches.map(|pitch| pitch % 12);
                    classes.sort_unstable();
                    let mut wanted = triad.members().map(|class| class.number());
                    wanted.sort_unstable();
                    if rises && is_close && classes == wanted {
                        found.extend(grip(neck, which, [one, two, three], pitches));
                    }
                }
            }
        }
    }
    found
}

fn grip(neck: &Neck, which: WhichTriad, places: [Place; 3], pitches: [u8; 3]) -> Option<Grip> {
    let hand = Hand::default();
    hand.grip(neck, places)?;
    let held: Vec<u8> = places.iter().map(|at| at.fret.number()).filter(|fret| *fret > 0).collect();
    let ends = held.iter().min().zip(held.iter().max());
    let mm = ends.map_or(0.0, |(low, high)| {
        let part = |fret: u8| 1.0 - 2f64.powf(-f64::from(fret) / 12.0);
        neck.tuning().scale_mm() * (part(*high) - part(*low))
    });
    let wide = if hand.ease_of(mm) == Ease::Easy { 0 } else { 3 };
    let lowest = pitches.into_iter().min().unwrap();
    let muddy = u32::from(52u8.saturating_sub(lowest));
    let open = 2 * (3 - held.len() as u32);
    let high = held.iter().max().map_or(0, |fret| u32::from(fret.saturating_sub(12)));
    Some(Grip { which, places, pitches, own: wide + muddy + high + open })
}

/// What a step costs, as the documentation says; `None` where it is not allowed.
fn step(from: &Grip, to: &Grip) -> Option<u32> {
    let [here, there] = [from, to].map(|grip| grip.pitches.into_iter().max().unwrap());
    let top = u32::from(here.abs_diff(there));
    if top > 3 {
        return None;
    }
    if from.places == to.places {
        return Some(9);
    }
    let mut cost = top;
    for (from, to) in from.places.iter().zip(&to.places) {
        cost += u32::from(from.string.number().abs_diff(to.string.number()));
        if from.fret.number() > 0 && to.fret.number() > 0 {
            cost += u32::from(from.fret.number().abs_diff(to.fret.number()));
        }
    }
    Some(cost)
}

/// Tries every way on from those that have been taken, and gives the least that one costs.
fn tried(stages: &[(bool, &[Grip])], taken: &mut Vec<Grip>, cost: u64) -> Option<u64> {
    let Some((&(is_other, here), rest)) = stages.split_first() else {
        let home = step(taken.last()?, taken.first()?)?;
        return Some(cost + u64::from(home));
    };
    let mut best: Option<u64> = None;
    for grip in here {
        let way = match taken.last() {
            Some(last) if is_other && last.which == grip.which => None,
            Some(last) => step(last, grip),
            None => Some(0),
        };
        let Some(way) = way else { continue };
        taken.push(*grip);
        let found = tried(rest, taken, cost + u64::from(way) + u64::from(grip.own));
        taken.pop();
        best = best.into_iter().chain(found).min();
    }
    best
}

/// The least that any comping costs, over every six frets side by side.
fn least(neck: &Neck, form: &[CompedChord]) -> Option<u64> {
    let last = neck.tuning().last_fret().number();
    let mut best: Option<u64> = None;
    for low in 0..=last - 5 {
        let area = at(&format!("{low}-{}", low + 5));
        let of_chord = |comped: &CompedChord| {
            let both = WhichTriad::BOTH.into_iter();
            both.flat_map(|which| grips(neck, which, which.triad_of(comped.pair()), area))
                .collect::<Vec<Grip>>()
        };
        let shapes: Vec<Vec<Grip>> = form.iter().map(of_chord).collect();
        let mut stages: Vec<(bool, &[Grip])> = Vec::new();
        for (comped, shapes) in form.iter().zip(&shapes) {
            stages.push((false, shapes));
            if comped.stabs() == 2 {
                stages.push((true, shapes));
            }
        }
        best = best.into_iter().chain(tried(&stages, &mut Vec::new(), 0)).min();
    }
    best
}

fn triad() -> impl Strategy<Value = Triad> {
    const ROOTS: &[&str] = &["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
    const QUALITIES: &[&str] = &["", "m", "dim", "+"];
    let named =
        |(root, quality)| format!("{root}{quality}").parse::<SpelledTriad>().unwrap().triad();
    (prop::sample::select(ROOTS), prop::sample::select(QUALITIES)).prop_map(named)
}

fn chord() -> impl Strategy<Value = CompedChord> {
    let pairs = (triad(), triad())
        .prop_filter_map("a shared note", |(one, other)| TriadPair::in_order(one, other));
    (pairs, any::<bool>()).prop_map(|(pair, both)| match both {
        true => CompedChord::Both(pair),
        false => CompedChord::Either(pair),
    })
}

/// Guitars with few strings and frets, where everything can be tried.
fn necks() -> impl Strategy<Value = Neck> {
    prop::sample::select(&["EADGBE", "DGBE", "G4 C4 E4 A4", "EADGCF", "G D A E", "BEADG"][..])
        .prop_map(|tuning| Neck::new(Tuning::read(tuning).unwrap()))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(cases()))]

    #[test]
    fn the_search_finds_what_trying_everything_finds(
        neck in necks(),
        form in prop::collection::vec(chord(), 1..=2),
    ) {
        let found = CompingQuery::over(form.clone()).comping(&neck);
        prop_assert_eq!(found.as_ref().ok().map(Comping::cost), least(&neck, &form));
    }

    /// What is promised, over longer forms.
    #[test]
    fn every_stab_is_held_in_one_area_under_a_top_voice_that_steps(
        neck in necks(),
        form in prop::collection::vec(chord(), 1..=24),
    ) {
        let Ok(comping) = CompingQuery::over(form.clone()).comping(&neck) else { return Ok(()) };
        let stabs = comping.stabs();
        prop_assert_eq!(stabs.len(), form.iter().map(|chord| chord.stabs()).sum::<usize>());
        for (stab, next) in stabs.iter().zip(stabs.iter().cycle().skip(1)) {
            let comped = form[stab.chord];
            prop_assert_eq!(stab.shape.triad(), stab.which.triad_of(comped.pair()));
            prop_assert!(Hand::default().grip(&neck, stab.shape.places()).is_some());
            let frets = stab.shape.places().map(|place| neck.fret_number(place));
            prop_assert!(frets.iter().all(|fret| comping.area().contains(*fret)));
            prop_assert!(stab.top().semitones_up_to(next.top()).abs() <= 3);
            let is_one_chord = stab.chord == next.chord && stabs.len() > 2;
            if is_one_chord && matches!(comped, CompedChord::Both(_)) {
                prop_assert_ne!(stab.which, next.which);
            }
        }
        let area = comping.area();
        prop_assert_eq!(area.last().number() - area.first().number(), 5);
    }

    /// What would help is said only where it helps.
    #[test]
    fn what_is_said_to_help_helps(
        neck in necks(),
        form in prop::collection::vec(chord(), 1..=6),
        top in 0u8..3,
    ) {
        let query = CompingQuery::over(form).with_top_steps_up_to(top).in_any_area_of(4);
        let relief = match query.comping(&neck) {
            Err(CompingError::NoArea { relief, .. }
                | CompingError::TopVoice { relief, .. }
                | CompingError::NoRound { relief, .. }) => relief,
            Ok(_) | Err(_) => return Ok(()),
        };
        if let Some(semitones) = relief.semitones {
            prop_assert!(query.clone().with_top_steps_up_to(semitones).comping(&neck).is_ok());
            prop_assert!(query.clone().with_top_steps_up_to(semitones - 1).comping(&neck).is_err());
        }
        if let Some(frets) = relief.frets {
            prop_assert!(query.clone().in_any_area_of(frets).comping(&neck).is_ok());
            prop_assert!(query.clone().in_any_area_of(frets - 1).comping(&neck).is_err());
        }
    }
}

/// How many forms are tried; more where `FRETLOOM_COMPING_FORMS` says how many.
fn cases() -> u32 {
    std::env::var("FRETLOOM_COMPING_FORMS").ok().and_then(|count| count.parse().ok()).unwrap_or(24)
}
