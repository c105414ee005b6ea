//! Comping of tunes that nobody wrote: what it promises, worked out from strings and frets alone, and read
//! back from its tablature and its MIDI file.

use std::collections::{BTreeMap, BTreeSet};

use fretloom::answer::{CompedStab, CompingAnswer, CompingQuestion};
use fretloom::export::text::TabText;
use fretloom::picture::TabLook;
use fretloom::score_file::{self, Choice};
use fretloom_fretboard::{Finger, Place};
use fretloom_theory::{ClickBeats, Swing};
use proptest::prelude::*;

use crate::made_up_tune::{Held, cases, eighths, guitar, triads, tune};
use crate::tab_reader::{self, QUARTER};

/// Open strings from the first to the sixth. common practice, no source
const OPEN: [i32; 6] = [64, 59, 55, 50, 45, 40];
/// From the nut to the bridge.
const SCALE_MM: f64 = 648.0;

/// String, fret and finger of each note, from the highest string number to the lowest.
fn held(stab: &CompedStab) -> Vec<(usize, i32, Finger)> {
    let shape = &stab.shape.shape;
    let fingers = shape.fingers().unwrap();
    let place = |(place, finger): (Place, Finger)| {
        (usize::from(place.string.number()), i32::from(place.fret.number()), finger)
    };
    shape.places().into_iter().zip(fingers).map(place).collect()
}

fn pitches(held: &[(usize, i32, Finger)]) -> Vec<i32> {
    held.iter().map(|(string, fret, _)| OPEN[string - 1] + fret).collect()
}

/// Can a hand hold it? Open strings need no finger; on a higher fret is a higher finger; and between the wire below the lowest fret and that of the highest there is no more than the hand
/// reaches. common practice, no source
fn is_holdable(held: &[(usize, i32, Finger)], reach_mm: f64) -> bool {
    let pressed: Vec<(i32, u8)> = held
        .iter()
        .filter(|(_, fret, _)| *fret > 0)
        .map(|(_, fret, finger)| (*fret, finger.number()))
        .collect();
    let open = held.iter().filter(|(_, fret, _)| *fret == 0);
    let order = pressed
        .iter()
        .all(|(fret, finger)| pressed.iter().all(|(other, its)| fret <= other || finger > its));
    let from_bridge = |fret: i32| SCALE_MM / 2f64.powf(f64::from(fret) / 12.0);
    let low = pressed.iter().map(|(fret, _)| *fret).min().unwrap_or(1);
    let high = pressed.iter().map(|(fret, _)| *fret).max().unwrap_or(1);
    // A fingertip stands right behind its wire, so the space of the highest fret need not be crossed.
    open.clone().all(|(.., finger)| *finger == Finger::Open)
        && pressed.iter().all(|(_, finger)| (1..=4).contains(finger))
        && order
        && from_bridge(low) - from_bridge((high - 1).max(low)) <= reach_mm
}

proptest! {
    #![proptest_config(cases(64))]

    /// Two stabs a bar where something sounds, one for each chord of two; both triads of the pair where
    /// there is one chord; one area of six frets; three semitones at most from top voice to top voice, also
    /// from the last to the first; every stab held by a hand.
    #[test]
    fn comping_keeps_its_promises(tune in tune()) {
        let (neck, tuning) = guitar();
        let chords = tune.chords(&neck);
        let question = CompingQuestion::over(chords.clone());
        let answer = CompingAnswer::new(&neck, tuning, &question).unwrap();
        let stabs = &answer.stabs;
        for bar in &tune.bars {
            let within = |stab: &&CompedStab| {
                (2 * bar.from..2 * bar.end()).contains(&eighths(stab.onset))
            };
            let own: Vec<&CompedStab> = stabs.iter().filter(within).collect();
            let sounds = bar.held.iter().any(|(_, held)| matches!(held, Held::Chord(_)));
            prop_assert_eq!(own.len(), if sounds { 2 } else { 0 }, "{:?}", bar);
            let mut heard: Vec<BTreeSet<i32>> = Vec::new();
            for stab in &own {
                let at = stab.onset;
                let pair = triads(chords.at(at).unwrap().pair.pair());
                let notes: BTreeSet<i32> =
                    pitches(&held(stab)).iter().map(|midi| midi % 12).collect();
                let of_pair = pair.map(|triad| triad.into_iter().collect::<BTreeSet<i32>>());
                prop_assert!(of_pair.contains(&notes), "{:?} in {:?}", notes, of_pair);
                heard.push(notes);
            }
            if let ([_], [one, other]) = (&bar.held[..], &heard[..]) {
                let is_one_pair = own[0].chord == own[1].chord;
                prop_assert!(!is_one_pair || one != other, "{:?}", bar);
            }
        }
        let held: Vec<_> = stabs.iter().map(held).collect();
        let tops: Vec<i32> = held.iter().map(|held| *pitches(held).iter().max().unwrap()).collect();
        for (top, next) in tops.iter().zip(tops.iter().cycle().skip(1)) {
            prop_assert!((top - next).abs() <= 3, "{:?}", tops);
        }
        let frets = || held.iter().flatten().map(|(_, fret, _)| *fret);
        let (low, high) = (frets().min().unwrap(), frets().max().unwrap());
        prop_assert!(high - low < 6, "{} to {}", low, high);
        for held in &held {
            prop_assert!(is_holdable(held, 120.0), "{:?}", held);
            let strings: BTreeSet<usize> = held.iter().map(|(string, ..)| *string).collect();
            prop_assert_eq!(strings.len(), 3);
        }

        // The tab, read by somebody who does not know what wrote it.
        let text = TabText::new(&answer.tab(&neck), &TabLook::default()).to_string();
        let mut of_tab: BTreeMap<i64, BTreeSet<(usize, i32)>> = BTreeMap::new();
        for found in tab_reader::read(&text) {
            let moment = of_tab.entry(found.onset * 2 / QUARTER).or_default();
            moment.insert((usize::from(found.string), i32::from(found.fret)));
        }
        let expected: BTreeMap<i64, BTreeSet<(usize, i32)>> = stabs
            .iter()
            .zip(&held)
            .map(|(stab, held)| {
                let places = held.iter().map(|(string, fret, _)| (*string, *fret));
                (i64::from(eighths(stab.onset)), places.collect())
            })
            .collect();
        prop_assert_eq!(of_tab, expected, "{}", text);

        // The MIDI file, in the order of time.
        let file = answer.written(Swing::default(), ClickBeats::Off).midi().unwrap();
        let read = score_file::read(&file, &Choice::default()).unwrap();
        let mut of_midi: BTreeMap<u32, BTreeSet<i32>> = BTreeMap::new();
        for note in read.notes() {
            let moment = of_midi.entry(eighths(note.note.onset())).or_default();
            moment.insert(i32::from(note.note.pitch().pitch().midi()));
        }
        let expected: BTreeMap<u32, BTreeSet<i32>> = stabs
            .iter()
            .zip(&held)
            .map(|(stab, held)| (eighths(stab.onset), pitches(held).into_iter().collect()))
            .collect();
        prop_assert_eq!(of_midi, expected);
    }
}
