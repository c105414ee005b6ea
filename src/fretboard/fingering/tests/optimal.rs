//! The search beside an exhaustive one that knows nothing of it: every place, finger and hand
//! position for every note, all of them put together, and the sums compared. What they share is
//! the cost, which is the definition, and the grips of a hand, which have a test of their own.

use std::collections::BTreeMap;

use proptest::prelude::*;

use super::super::cost::{Avoid, Cost};
use super::super::hurry::Hurry;
use super::*;
use crate::{FretRange, NoteArea, OpenString, Region, StringSet, Tuning};

/// One way to play a whole line.
#[derive(Clone, Debug)]
struct Played {
    notes: Vec<FingeredNote>,
    cost: f64,
    shifts: usize,
    /// Shifts without an open string or half a second to make them in.
    hurried: usize,
}

impl Played {
    fn places(&self) -> Vec<(u8, u8)> {
        let place = |note: &FingeredNote| (note.place.string.number(), note.place.fret.number());
        self.notes.iter().map(place).collect()
    }
}

/// All fingers that reach a place, by the rules as they are told: one finger a fret over four
/// frets; the first also one fret back, the others one fret down or up, the fourth two up; and no
/// further than the hand reaches.
fn all_fingered(neck: &Neck, pitch: Pitch) -> Vec<FingeredNote> {
    let fingers = [Finger::First, Finger::Second, Finger::Third, Finger::Fourth];
    let last = neck.tuning().last_fret().number();
    let mut found = Vec::new();
    for (place, sounds) in neck.places() {
        if sounds != pitch {
            continue;
        }
        for position in (1..=36).filter_map(HandPosition::new) {
            if place.fret.is_open() {
                if position.number() <= last.max(1) {
                    found.push(FingeredNote { place, finger: Finger::Open, position });
                }
                continue;
            }
            for (finger, natural) in fingers.into_iter().zip(0i32..) {
                let off = i32::from(place.fret.number()) - i32::from(position.number()) - natural;
                let may = match finger {
                    Finger::First => (-1..=0).contains(&off),
                    Finger::Fourth => (-1..=2).contains(&off),
                    _ => (-1..=1).contains(&off),
                };
                let fingers_up = u8::try_from(natural).unwrap();
                let hand_holds = fingers_up == 0
                    || Hand::default().reaches(neck, position.fret(), place.fret, fingers_up);
                if may && hand_holds {
                    found.push(FingeredNote { place, finger, position });
                }
            }
        }
    }
    found
}

/// Every way to play a line in which notes at one onset sound together.
fn every_way(neck: &Neck, line: &[LineNote], taste: Taste) -> Vec<Played> {
    let query = FingeringQuery::default().to_taste(taste);
    let cost = Cost::new(neck, &query, Avoid::Nothing, line);
    let mut ways = vec![Played { notes: Vec::new(), cost: 0.0, shifts: 0, hurried: 0 }];
    let mut before_s = 0.0;
    for chord in line.chunk_by(|one, other| one.onset_s() == other.onset_s()) {
        let seconds = chord[0].onset_s() - before_s;
        before_s = chord[0].onset_s();
        let holds = every_hold(neck, &cost, chord);
        let longer = |way: &Played| {
            holds.iter().map(|hold| played(&cost, way, hold, seconds)).collect::<Vec<_>>()
        };
        ways = ways.iter().flat_map(longer).collect();
    }
    ways
}

/// Every way to play what begins together, with what it costs.
fn every_hold(neck: &Neck, cost: &Cost, chord: &[LineNote]) -> Vec<(Vec<FingeredNote>, f64)> {
    if let [only] = chord {
        let notes = all_fingered(neck, only.pitch()).into_iter();
        return notes.map(|note| (vec![note], cost.of(note))).collect();
    }
    let mut places: Vec<Vec<Place>> = vec![Vec::new()];
    for note in chord {
        let more = |set: &Vec<Place>| {
            let there = neck.places().filter(|(_, pitch)| *pitch == note.pitch());
            there.map(|(place, _)| [set.as_slice(), &[place]].concat()).collect::<Vec<_>>()
        };
        places = places.iter().flat_map(more).collect();
    }
    let mut holds = Vec::new();
    for set in places {
        Hand::default().each_assignment(neck, &set, &mut |fingers, grip_mm| {
            let lowest = set.iter().zip(fingers).filter(|(_, finger)| **finger != Finger::Open);
            let lowest = lowest.min_by_key(|(_, finger)| **finger);
            let last = neck.tuning().last_fret().number().max(1);
            let stands: Vec<u8> = match lowest {
                Some((at, finger)) => {
                    vec![(at.fret.number() + 1).saturating_sub(finger.number()).max(1)]
                }
                None => (1..=last).collect(),
            };
            for position in stands.into_iter().filter_map(HandPosition::new) {
                let held = set.iter().zip(fingers);
                let held = held.map(|(place, finger)| FingeredNote {
                    place: *place,
                    finger: *finger,
                    position,
                });
                let held: Vec<FingeredNote> = held.collect();
                let sum = cost.of_chord(&held, grip_mm);
                holds.push((held, sum));
            }
            true
        });
    }
    holds
}

/// `way` with a hold more, `seconds` after what was before it.
fn played(
    cost: &Cost,
    way: &Played,
    (held, sum): &(Vec<FingeredNote>, f64),
    seconds: f64,
) -> Played {
    let mut longer = way.clone();
    longer.cost += sum;
    if let Some(before) = way.notes.last() {
        longer.cost += cost.between(*before, held[0], Hurry::within_s(seconds));
        let shifts = before.position != held[0].position;
        let open = before.finger == Finger::Open || held[0].finger == Finger::Open;
        longer.shifts += usize::from(shifts);
        longer.hurried += usize::from(shifts && !open && seconds < 0.5);
    }
    longer.notes.extend(held);
    longer
}

fn cheapest(ways: impl IntoIterator<Item = Played>) -> Option<Played> {
    ways.into_iter().min_by(|a, b| a.cost.total_cmp(&b.cost))
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6
}

prop_compose! {
    /// Three or four strings in any order of pitch, unison and re-entrant ones too.
    fn any_neck()(
        opens in prop::collection::vec(45u8..70, 3..=4),
        frets in 4u32..12,
        scale_mm in 340.0..870.0,
    ) -> Neck {
        let open = |midi: u8| {
            let names = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
            let name = format!("{}{}", names[usize::from(midi % 12)], midi / 12 - 1);
            OpenString::new(name.parse().unwrap())
        };
        Neck::new(Tuning::new(opens.into_iter().map(open).collect(), frets, scale_mm).unwrap())
    }
}

prop_compose! {
    /// A line that such a neck has, two to four notes; now and then two of them together.
    fn neck_and_line()(neck in any_neck())(
        picks in prop::collection::vec((any::<prop::sample::Index>(), 0u8..4), 2..=4),
        neck in Just(neck),
    ) -> (Neck, Vec<LineNote>) {
        let places: Vec<(Place, Pitch)> = neck.places().collect();
        let mut onset_s = 0.0;
        let mut line = Vec::new();
        for (pick, step) in picks {
            onset_s += f64::from(step) * 0.125;
            line.push(LineNote::new(onset_s, 0.1, pick.get(&places).1).unwrap());
        }
        (neck, line)
    }
}

/// Lines whose every way can be listed in a moment, and held by one hand.
fn listed(neck: &Neck, line: &[LineNote]) -> Option<Vec<Played>> {
    let product: usize = line.iter().map(|note| all_fingered(neck, note.pitch()).len()).product();
    let ways = (product < 200_000).then(|| every_way(neck, line, Taste::default()))?;
    (!ways.is_empty()).then_some(ways)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_way_is_cheaper((neck, line) in neck_and_line()) {
        let Some(ways) = listed(&neck, &line) else { return Ok(()) };
        let found = FingeringQuery::default().best(&neck, &line).unwrap();
        let least = cheapest(ways).unwrap();
        prop_assert!(near(found.cost(), least.cost), "{} {}", found.cost(), least.cost);
        let told = FingeringQuery::default().cost_of(&neck, &line, found.notes());
        prop_assert!(near(told.unwrap(), least.cost));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_cheapest_are_all_of_the_cheapest((neck, line) in neck_and_line()) {
        let Some(ways) = listed(&neck, &line) else { return Ok(()) };
        let mut by_places: BTreeMap<Vec<(u8, u8)>, f64> = BTreeMap::new();
        for way in ways {
            let least = by_places.entry(way.places()).or_insert(f64::INFINITY);
            *least = least.min(way.cost);
        }
        let mut costs: Vec<f64> = by_places.values().copied().collect();
        costs.sort_by(f64::total_cmp);
        let found = FingeringQuery::default().cheapest(&neck, &line, 12).unwrap();
        prop_assert_eq!(found.len(), costs.len().min(12));
        for (fingering, least) in found.iter().zip(&costs) {
            prop_assert!(near(fingering.cost(), *least), "{} {least}", fingering.cost());
            let places = fingering.notes().iter().map(|note| note.place);
            let key: Vec<_> = places.map(|p| (p.string.number(), p.fret.number())).collect();
            let own = by_places.remove(&key);
            prop_assert!(own.is_some_and(|own| near(own, *least)), "twice, or unknown: {key:?}");
        }
    }

    /// Each note may be told its string, its fret or, where it sounds alone, where the hand is, as some
    /// way has it.
    #[test]
    fn no_way_in_the_areas_of_its_notes_is_cheaper(
        (neck, line) in neck_and_line(),
        way in any::<prop::sample::Index>(),
        told in prop::collection::vec(0u8..8, 4),
    ) {
        let Some(ways) = listed(&neck, &line) else { return Ok(()) };
        let model = way.get(&ways).clone();
        let is_alone = |note: &LineNote| {
            line.iter().filter(|other| other.onset_s() == note.onset_s()).count() == 1
        };
        let told: Vec<u8> = line
            .iter()
            .zip(told)
            .map(|(note, told)| if is_alone(note) { told } else { told & 3 })
            .collect();
        let area = |(at, told): (&FingeredNote, &u8)| {
            let on = StringSet::only(at.place.string);
            let fret = FretRange::new(at.place.fret, at.place.fret).unwrap();
            let region = if told & 1 > 0 { Region::default().on(on) } else { Region::default() };
            let area = NoteArea::of(if told & 2 > 0 { region.within(fret) } else { region });
            if told & 4 > 0 { area.in_position(at.position) } else { area }
        };
        let areas = || model.notes.iter().zip(&told).map(area);
        let line: Vec<LineNote> =
            line.iter().zip(areas()).map(|(note, area)| note.within(area)).collect();
        let is_told = |played: &Played| {
            let like = |((at, now), told): ((&FingeredNote, &FingeredNote), &u8)| {
                (told & 1 == 0 || at.place.string == now.place.string)
                    && (told & 2 == 0 || at.place.fret == now.place.fret)
                    && (told & 4 == 0 || at.position == now.position)
            };
            model.notes.iter().zip(&played.notes).zip(&told).all(like)
        };
        let least = cheapest(ways.into_iter().filter(is_told)).unwrap();
        let found = FingeringQuery::default().best(&neck, &line).unwrap();
        prop_assert!(near(found.cost(), least.cost), "{} {}", found.cost(), least.cost);
    }

    #[test]
    fn every_alternative_is_the_best_under_its_condition((neck, line) in neck_and_line()) {
        let Some(all) = listed(&neck, &line) else { return Ok(()) };
        for way in FingeringQuery::default().alternatives(&neck, &line, 8).unwrap().fingerings {
            let fulfil: Vec<Played> =
                all.iter().filter(|played| fulfils(&way, played)).cloned().collect();
            let best = match way.condition() {
                FingeringCondition::NextCheapest => continue,
                FingeringCondition::OpenStrings => {
                    let taste = Taste::default().with_open_strings_at_mm(0.0);
                    let least = cheapest(every_way(&neck, &line, taste)).unwrap();
                    let query = FingeringQuery::default().to_taste(taste);
                    let found = query.cost_of(&neck, &line, way.notes()).unwrap();
                    prop_assert!(near(found, least.cost), "{way}: {found} {}", least.cost);
                    continue;
                }
                FingeringCondition::FewestShifts => {
                    let fewest = fulfil.iter().map(|played| played.shifts).min();
                    prop_assert_eq!(Some(way.shifts()), fewest);
                    cheapest(fulfil.into_iter().filter(|played| Some(played.shifts) == fewest))
                }
                _ => cheapest(fulfil),
            };
            let best = best.unwrap();
            prop_assert!(near(way.cost(), best.cost), "{way}: {} {}", way.cost(), best.cost);
        }
    }
}

/// Does a way fulfil the condition that `offered` is the best under?
fn fulfils(offered: &Fingering, way: &Played) -> bool {
    let strings = |set: StringSet| way.notes.iter().all(|note| set.contains(note.place.string));
    match offered.condition() {
        FingeringCondition::NoOpenString => {
            way.notes.iter().all(|note| note.finger != Finger::Open)
        }
        FingeringCondition::OnStrings(set) => strings(set),
        FingeringCondition::Positions(low, high) => {
            way.notes.iter().all(|note| (low..=high).contains(&note.position))
        }
        FingeringCondition::EasedShifts => way.hurried == 0,
        _ => true,
    }
}
