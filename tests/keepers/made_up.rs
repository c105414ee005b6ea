//! Every kind of keeper, made up.

use std::sync::Arc;

use fretloom::library::LoadedTunings;
use fretloom::store::{
    Asked, Beats, Kept, KeptNote, KeptPlan, KeptShape, KeptThing, KeyAway, Limit, NewKeeper,
    PracticeRecord, TriedBy, Try, Unit, Verdict,
};
use fretloom_fretboard::{Capo, Finger, Fret, Place, StringNumber, StringSet, Tuning};
use fretloom_theory::{Pitch, Quarters};
use jiff::civil::Date;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

/// Whatever a player may type, and what a file might stumble over.
pub(crate) fn words() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => "[A-Ga-z♭♯#0-9 &|%.]{1,16}",
        1 => "\\PC{0,12}",
        1 => "[\\x00-\\x1f\\x7f\"'\\\\#\\[\\]{}=,\n]{1,12}",
        1 => Just("\n[[keeper]]\n\"\"\"'''".to_owned()),
    ]
}

pub(crate) fn day() -> impl Strategy<Value = Date> {
    (1900i16..2200, 1i8..=12, 1i8..=28).prop_map(|(y, m, d)| Date::new(y, m, d).unwrap())
}

fn place() -> impl Strategy<Value = Place> {
    (1u8..=12, 0u8..=36).prop_map(|(string, fret)| {
        Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
    })
}

fn finger() -> impl Strategy<Value = Finger> {
    use Finger::{First, Fourth, Open, Second, Third};
    prop::sample::select(vec![Open, First, Second, Third, Fourth])
}

fn strings() -> impl Strategy<Value = StringSet> {
    prop::sample::select(vec!["3-2-1", "4-3-2", "12-7-1", "2"])
        .prop_map(|text| text.parse().unwrap())
}

fn tuning() -> impl Strategy<Value = Tuning> {
    let all: Vec<Tuning> =
        LoadedTunings::load(None).iter().map(|(tuning, _)| tuning.clone()).collect();
    let capo = prop::sample::select(vec![
        Capo::NONE,
        Capo::full(Fret::new(3).unwrap()),
        Capo::partial(Fret::new(2).unwrap(), "3-2".parse().unwrap()),
    ]);
    (prop::sample::select(all), capo, words()).prop_map(|(tuning, capo, name)| {
        let named = tuning.clone().named(tuning.id(), &name, tuning.instrument().clone());
        named.clone().with_capo(capo).unwrap_or(named)
    })
}

fn shape() -> impl Strategy<Value = KeptThing> {
    (words(), vec((place(), finger()), 1..5), any::<bool>()).prop_map(
        |(triad, held, has_fingers)| {
            let mut held = held;
            held.sort_by_key(|(place, _)| std::cmp::Reverse(place.string));
            held.dedup_by_key(|(place, _)| place.string);
            let (places, fingers): (Vec<_>, Vec<_>) = held.into_iter().unzip();
            let fingers = if has_fingers { fingers } else { Vec::new() };
            KeptThing::Shape(KeptShape::new(&triad, places, fingers).unwrap())
        },
    )
}

fn line() -> impl Strategy<Value = KeptThing> {
    let quarters = (0u64..999, 1u32..99).prop_map(|(n, d)| Quarters::new(n, d).unwrap());
    let length = (1u64..99, 1u32..99).prop_map(|(n, d)| Quarters::new(n, d).unwrap());
    let note = (quarters, length, 0u8..=127, place(), option::of(finger()));
    vec(note, 0..8).prop_map(|notes| {
        let note = |(onset, length, midi, place, finger)| KeptNote {
            onset,
            length,
            pitch: Pitch::from_midi(midi).unwrap(),
            place,
            finger,
        };
        KeptThing::Line(notes.into_iter().map(note).collect())
    })
}

fn plan() -> impl Strategy<Value = KeptThing> {
    let plan = (words(), option::of(words()), option::of(words()));
    plan.prop_map(|(chart, key, frets)| KeptThing::Plan(KeptPlan { chart, key, frets }))
}

fn thing() -> impl Strategy<Value = KeptThing> {
    prop_oneof![Just(KeptThing::Pair), Just(KeptThing::Ladder), shape(), line(), plan()]
}

fn kept() -> impl Strategy<Value = Kept> {
    let texts = (words(), option::of(words()), option::of(words()), option::of(words()));
    let screen = (option::of(words()), option::of(words()));
    let rest = (option::of(tuning()), option::of(strings()), screen);
    (thing(), texts, rest).prop_map(|(what, texts, (tuning, strings, (view, screen)))| Kept {
        on: None,
        what,
        chord: Some(texts.0),
        scale: texts.1,
        scale_notes: texts.2,
        pair: texts.3,
        tuning: tuning.map(Arc::new),
        view,
        strings,
        screen,
    })
}

fn beats() -> impl Strategy<Value = Beats> {
    (20u16..=400).prop_map(|a_minute| Beats::new(a_minute).unwrap())
}

fn limit() -> impl Strategy<Value = Limit> {
    prop::sample::select(Limit::ALL.to_vec())
}

fn unit() -> impl Strategy<Value = Unit> {
    let by = prop::sample::select(vec![
        TriedBy::Hand,
        TriedBy::Ear(Asked::Pair),
        TriedBy::Ear(Asked::Qualities),
        TriedBy::Ear(Asked::LeftOut),
    ]);
    (0u8..12, option::of(strings()), option::of(limit()), by)
        .prop_map(|(up, strings, limit, by)| Unit { key: KeyAway::up(up), strings, limit, by })
}

pub(crate) fn one_try() -> impl Strategy<Value = Try> {
    let verdict = prop::sample::select(vec![Verdict::Got, Verdict::Again]);
    (day(), unit(), option::of(beats()), verdict, option::of(day()))
        .prop_map(|(on, unit, tempo, verdict, next)| Try { on, unit, tempo, verdict, next })
}

fn practice() -> impl Strategy<Value = PracticeRecord> {
    let parts = (
        option::of(beats()),
        option::of(words()),
        vec(strings(), 0..3),
        prop::sample::subsequence(Limit::ALL.to_vec(), 0..=3),
        vec(one_try(), 0..4),
    );
    parts.prop_map(|(start, keys, sets, limits, tries)| PracticeRecord {
        start,
        keys,
        sets,
        limits,
        tries,
    })
}

/// A keeper of any kind.
pub(crate) fn keeper() -> impl Strategy<Value = NewKeeper> {
    let tags = vec(words(), 0..3).prop_map(|mut tags| {
        tags.sort();
        tags.dedup();
        tags
    });
    (kept(), option::of(words()), words(), tags, practice()).prop_map(
        |(kept, name, notes, tags, practice)| NewKeeper { kept, name, notes, tags, practice },
    )
}
