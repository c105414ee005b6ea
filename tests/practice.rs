//! What is practised when, over made-up calendars and with a clock of the test's own.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

use std::collections::{BTreeMap, BTreeSet};

use fretloom::answer::key_of;
use fretloom::practice::{
    LadderRules, PracticeRules, Spacing, TempoLadder, Today, Why, day_at, units,
};
use fretloom::store::Verdict::{Again, Got};
use fretloom::store::{
    Asked, Beats, Keeper, KeeperId, Kept, KeptPlan, KeptThing, KeyAway, Limit, NewKeeper, TriedBy,
    Try, Unit, Verdict,
};
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

const MONDAY: Date = date(2026, 5, 4);

fn later(day: Date, days: i64) -> Date {
    day.saturating_add(SignedDuration::from_hours(24 * days))
}

fn keeper(id: u32, chord: &str) -> Keeper {
    let kept =
        Kept { chord: Some(chord.to_owned()), pair: Some("F & G".to_owned()), ..Kept::default() };
    Keeper::new(KeeperId::new(id).unwrap(), NewKeeper { kept, ..NewKeeper::default() })
}

fn many(count: u32) -> Vec<Keeper> {
    (1..=count).map(|id| keeper(id, "Dm7")).collect()
}

fn beats(a_minute: u16) -> Beats {
    Beats::new(a_minute).unwrap()
}

/// One more try, as a screen records it.
fn tried(keeper: &mut Keeper, unit: &Unit, on: Date, verdict: Verdict) -> Date {
    let tried = Spacing::default().tried(&keeper.practice, unit, (on, Some(beats(60)), verdict));
    let next = tried.next.unwrap();
    keeper.practice.tries.push(tried);
    next
}

/// When a unit comes back that is tried on these days after the first, each with its verdict.
fn gaps(days: &[(i64, Verdict)]) -> Vec<i64> {
    let mut keeper = keeper(1, "Dm7");
    let tries = days.iter().map(|(after, verdict)| (later(MONDAY, *after), *verdict));
    tries
        .map(|(on, verdict)| {
            let next = tried(&mut keeper, &Unit::default(), on, verdict);
            on.duration_until(next).as_hours() / 24
        })
        .collect()
}

/// By hand.
#[test]
fn the_gap_doubles_when_it_was_due_and_begins_anew_after_a_miss() {
    // Always on the day on which it is due.
    let on_time = [0, 1, 3, 7, 15, 31, 63, 123, 183].map(|day| (day, Got));
    assert_eq!(gaps(&on_time), [1, 2, 4, 8, 16, 32, 60, 60, 60]);
    // Late by weeks: the gap grows from what it was.
    assert_eq!(gaps(&[(0, Got), (30, Got), (90, Got)]), [1, 2, 4]);
    // Early: the gap stays.
    assert_eq!(gaps(&[(0, Got), (1, Got), (2, Got), (3, Got), (5, Got)]), [1, 2, 2, 2, 4]);
    // A miss begins anew, and also where it was got later on the same day.
    assert_eq!(gaps(&[(0, Got), (1, Got), (3, Again), (4, Got), (5, Got)]), [1, 2, 1, 1, 2]);
    assert_eq!(gaps(&[(0, Got), (1, Got), (3, Again), (3, Got), (4, Got)]), [1, 2, 1, 1, 2]);
    // Several good ones on a day count once.
    assert_eq!(gaps(&[(0, Got), (0, Got), (1, Got), (1, Got), (3, Got)]), [1, 1, 2, 2, 4]);
}

#[test]
fn numbers_of_the_player_are_kept_to_and_foolish_ones_do_no_harm() {
    let spacing = Spacing { first_days: 2, growth: 3, longest_days: 10 };
    let on = |day: i64, next: i64| Try {
        on: later(MONDAY, day),
        unit: Unit::default(),
        tempo: None,
        verdict: Got,
        next: Some(later(MONDAY, next)),
    };
    assert_eq!(spacing.next(&[], MONDAY, Got), later(MONDAY, 2));
    assert_eq!(spacing.next(&[on(0, 2)], later(MONDAY, 2), Got), later(MONDAY, 8));
    assert_eq!(spacing.next(&[on(2, 8)], later(MONDAY, 8), Got), later(MONDAY, 18));
    let nothing = Spacing { first_days: 0, growth: 0, longest_days: 0 };
    assert_eq!(nothing.next(&[on(0, -5)], later(MONDAY, 1), Got), later(MONDAY, 2));
    // At the end of the calendar.
    let last = Date::MAX;
    assert_eq!(spacing.next(&[], last, Got), last);
    let far = Try { on: Date::MIN, next: Some(Date::MAX), ..on(0, 1) };
    assert!(spacing.next(&[far], Date::MAX, Got) <= Date::MAX);
}

/// Three good ones in a row, eight up; four back; the top is never passed.
#[test]
fn a_ladder_goes_up_after_some_good_tries_and_back_after_one_that_was_not() {
    let tempos = |verdicts: &[Verdict]| {
        let mut ladder = TempoLadder::from_start(LadderRules::default());
        let mut tempos = Vec::new();
        for verdict in verdicts {
            ladder = ladder.after(*verdict);
            tempos.push(ladder.tempo().a_minute());
        }
        tempos
    };
    assert_eq!(tempos(&[Got, Got, Got, Got, Got, Got]), [60, 60, 68, 68, 68, 76]);
    assert_eq!(tempos(&[Got, Got, Again, Got, Got, Got]), [60, 60, 56, 56, 56, 64]);
    assert_eq!(tempos(&[Again; 12])[9..], [20, 20, 20], "never slower than there is");
    let rules = LadderRules { start: beats(190), good: 1, ..LadderRules::default() };
    let mut ladder = TempoLadder::from_start(rules);
    for expected in [198, 200, 200] {
        ladder = ladder.after(Got);
        assert_eq!(ladder.tempo().a_minute(), expected);
    }
    let above = LadderRules { start: beats(300), good: 0, ..LadderRules::default() };
    assert_eq!(TempoLadder::from_start(above).after(Got).tempo().a_minute(), 300);
}

#[test]
fn a_ladder_goes_on_a_step_below_what_was_reached() {
    let rules = LadderRules::default();
    let mut kept = keeper(1, "Dm7");
    let begin = |kept: &Keeper, unit: &Unit| {
        TempoLadder::going_on(rules, &kept.practice, unit).tempo().a_minute()
    };
    let (here, there) = (Unit::default(), Unit { key: KeyAway::up(5), ..Unit::default() });
    assert_eq!(begin(&kept, &here), 60);
    kept.practice.start = Some(beats(72));
    assert_eq!(begin(&kept, &here), 72);
    let at = |tempo: u16, verdict: Verdict| Try {
        on: MONDAY,
        unit: Unit::default(),
        tempo: Some(beats(tempo)),
        verdict,
        next: None,
    };
    kept.practice.tries = vec![at(80, Got), at(92, Got), at(100, Again)];
    assert_eq!((begin(&kept, &here), begin(&kept, &there)), (88, 72));
}

#[test]
fn what_is_practised_are_keys_sets_and_limits() {
    let fourths = fretloom_theory::KeyCycle::Fourths;
    let mut kept = keeper(1, "Dm7");
    let ups = |kept: &Keeper| -> Vec<u8> {
        units(kept, fourths).iter().map(|unit| unit.key.semitones()).collect()
    };
    assert_eq!(ups(&kept), [0, 5, 10, 3, 8, 1, 6, 11, 4, 9, 2, 7]);
    kept.practice.keys = Some("here".to_owned());
    assert_eq!(ups(&kept), [0]);
    kept.practice.keys = Some("shuffled:7".to_owned());
    assert_eq!(ups(&kept)[0], 0);
    assert_eq!(ups(&kept).into_iter().collect::<BTreeSet<u8>>().len(), 12);
    kept.practice.keys = Some("by moonlight".to_owned());
    assert_eq!(ups(&kept)[..2], [0, 5], "what cannot be read is the usual order");
    kept.practice.keys = Some("here".to_owned());
    kept.practice.sets = vec!["4-3-2".parse().unwrap(), "3-2-1".parse().unwrap()];
    kept.practice.limits = vec![Limit::RestsCompulsory];
    let found = units(&kept, fourths);
    let words: Vec<String> = found
        .iter()
        .map(|unit| {
            let limit = unit.limit.map_or("free", Limit::word);
            format!("{} {limit}", unit.strings.unwrap())
        })
        .collect();
    assert_eq!(
        words,
        ["4-3-2 free", "4-3-2 rests-compulsory", "3-2-1 free", "3-2-1 rests-compulsory"]
    );
    let mut plan = keeper(2, "");
    plan.kept.what = KeptThing::Plan(KeptPlan::default());
    assert_eq!(ups(&plan), [0], "a tune stays in its key");
    assert_eq!(key_of(&plan, 0), None);
}

#[test]
fn the_list_of_a_day_is_finite_and_mixed() {
    let rules = PracticeRules::default();
    // New things come one a day.
    let today = Today::of(&many(100), &rules, MONDAY);
    assert_eq!(today.turns.len(), 3);
    assert!(today.turns.iter().all(|turn| turn.keeper.number() == 1 && turn.why == Why::New));
    // A hundred things are due in all keys: the list stays as long as it is.
    let mut all = many(100);
    for keeper in &mut all {
        for unit in units(keeper, rules.key_order) {
            tried(keeper, &unit, MONDAY, Again);
        }
    }
    let today = Today::of(&all, &rules, later(MONDAY, 300));
    assert_eq!(today.turns.len(), 10, "20 minutes in turns of 2");
    let items: BTreeSet<u32> = today.turns.iter().map(|turn| turn.keeper.number()).collect();
    assert_eq!(items.len(), 5);
    assert!(today.turns.windows(2).all(|two| two[0].keeper != two[1].keeper), "mixed");
    assert!(today.turns.iter().all(|turn| turn.why == Why::Due(later(MONDAY, 1))));
    let rests: Vec<usize> = (0..10).filter(|turn| today.turns[*turn].after_rest).collect();
    assert_eq!(rests, [8], "after 16 minutes, the first end of a turn beyond 15");
    let long = PracticeRules { minutes: 240, items: 3, ..rules };
    let today = Today::of(&all, &long, later(MONDAY, 300));
    assert_eq!(today.turns.len(), 9, "three things in three keys");
}

#[test]
fn what_is_due_longest_comes_first_then_new_then_next() {
    let rules = PracticeRules::default();
    let mut all = many(4);
    let here = Unit::default();
    tried(&mut all[2], &here, MONDAY, Got);
    tried(&mut all[1], &here, later(MONDAY, 1), Got);
    // By ear it is another matter.
    let ear = Unit { by: TriedBy::Ear(Asked::Pair), ..Unit::default() };
    tried(&mut all[0], &ear, later(MONDAY, 1), Got);
    let order = |day: Date, all: &[Keeper]| -> Vec<(u32, Why)> {
        let turns = Today::of(all, &rules, day).turns;
        turns.iter().map(|turn| (turn.keeper.number(), turn.why)).collect()
    };
    let (tuesday, wednesday) = (later(MONDAY, 1), later(MONDAY, 2));
    let (due_3, due_2) = (Why::Due(tuesday), Why::Due(wednesday));
    assert_eq!(
        order(wednesday, &all),
        [
            (3, due_3),
            (2, due_2),
            (1, Why::New),
            (3, Why::Next),
            (2, Why::Next),
            (1, Why::New),
            (3, Why::Next),
            (2, Why::Next),
            (1, Why::New),
        ]
    );
    // What is done stays on the list of the day, and is marked.
    let before = order(wednesday, &all);
    tried(&mut all[2], &here, wednesday, Got);
    assert_eq!(order(wednesday, &all), before);
    let turns = Today::of(&all, &rules, wednesday).turns;
    assert_eq!(turns.iter().filter(|turn| turn.is_done).count(), 1);
    assert!(turns[0].is_done);
}

/// A player who does all that the list says, every day for a year.
#[test]
fn a_year_of_practice_brings_everything_and_never_too_much() {
    let rules = PracticeRules::default();
    let mut all = many(6);
    let mut met: BTreeMap<u32, BTreeSet<u8>> = BTreeMap::new();
    for day in 0..365 {
        let day = later(MONDAY, day);
        let turns = Today::of(&all, &rules, day).turns;
        assert!(turns.len() <= rules.turns());
        for (index, turn) in turns.into_iter().enumerate() {
            let id = turn.keeper.number();
            met.entry(id).or_default().insert(turn.unit.key.semitones());
            let verdict = if index == 3 { Again } else { Got };
            tried(&mut all[id as usize - 1], &turn.unit, day, verdict);
        }
    }
    assert!((1..=6).all(|id| met[&id].len() == 12), "{met:?}");
}

fn day_in(zone: &str, moment: &str) -> Date {
    day_at(moment.parse().unwrap(), TimeZone::get(zone).unwrap())
}

/// Clocks in Berlin went forward on 2026-03-29 and go back on 2026-10-25 (from memory).
#[test]
fn a_night_of_summer_time_loses_no_day() {
    for night in [date(2026, 3, 29), date(2026, 10, 25)] {
        let zone = TimeZone::get("Europe/Berlin").unwrap();
        let noon = night.yesterday().unwrap().at(12, 0, 0, 0).to_zoned_datetime(zone.clone());
        let noon: Timestamp = noon.unwrap().timestamp();
        let mut days = BTreeSet::new();
        for hour in 0..48 {
            days.insert(day_at(noon + SignedDuration::from_hours(hour), zone.clone()));
        }
        assert_eq!(days.len(), 3);
        let mut kept = keeper(1, "Dm7");
        let before = night.yesterday().unwrap();
        let next = tried(&mut kept, &Unit::default(), before, Got);
        assert_eq!(next, night);
        assert_eq!(tried(&mut kept, &Unit::default(), night, Got), later(night, 2));
    }
}

#[test]
fn a_journey_across_the_date_line_loses_no_try() {
    // The same moment is Sunday in Honolulu and Monday in Auckland.
    let moment = "2026-05-03T20:00:00Z";
    let (west, east) = (day_in("Pacific/Honolulu", moment), day_in("Pacific/Auckland", moment));
    assert_eq!((west, east), (date(2026, 5, 3), date(2026, 5, 4)));
    let mut kept = keeper(1, "Dm7");
    tried(&mut kept, &Unit::default(), east, Got);
    // A day that comes twice: nothing is due yet, and what is played all the same counts.
    let again = tried(&mut kept, &Unit::default(), west, Got);
    assert_eq!(kept.practice.tries.len(), 2);
    assert_eq!(again, date(2026, 5, 4));
    let turns = Today::of(&[kept], &PracticeRules::default(), date(2026, 5, 5)).turns;
    assert!(matches!(turns[0].why, Why::Due(_)));
}
