//! Spelled notes and triads of 402 scales against a table made outside the project; its head says
//! how.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/arithmetic.rs"]
mod arithmetic;

use std::fmt::Display;

use arithmetic::rows;
use fretloom::answer::{ScaleTriad, TriadsAnswer, triads_of};
use fretloom_theory::Spelling;

const TRIADS: &str = include_str!("reference/diatonic_triads.tsv");

fn words<T: Display>(list: impl IntoIterator<Item = T>) -> String {
    list.into_iter().map(|word| format!("{word:#}")).collect::<Vec<_>>().join(" ")
}

/// The scale of one row, asked for by tonic and name.
fn answer(row: &[&str]) -> TriadsAnswer {
    let scale = format!("{} {}", row[3], row[4]);
    triads_of(&scale, Spelling::Strict, &[]).unwrap_or_else(|refusal| panic!("{scale}: {refusal}"))
}

#[test]
fn every_scale_is_spelled_as_in_the_reference() {
    for row in rows(TRIADS) {
        let scale = answer(&row).scale;
        assert_eq!(words(scale.scale().notes()), row[5], "{row:?}");
        assert_eq!(words([scale.scale().root()]), row[3], "{row:?}");
        assert_eq!(scale.scale().respelled_from(), None, "{row:?}");
    }
    assert_eq!(rows(TRIADS).count(), 402);
}

#[test]
fn every_scale_holds_the_seven_triads_of_the_reference_letter_by_letter() {
    let written = |triad: &ScaleTriad| {
        format!("{} {}", triad.triad.quality().word(), words(triad.triad.notes()))
    };
    for row in rows(TRIADS) {
        let triads = answer(&row).triads;
        let found: Vec<String> = triads.iter().map(written).collect();
        assert_eq!(found.join("; "), row[6], "{row:?}");
        assert!(triads.iter().all(|triad| triad.in_thirds));
        let numbers: Vec<u8> = triads.iter().map(|triad| triad.degree.number()).collect();
        assert_eq!(numbers, [1, 2, 3, 4, 5, 6, 7], "{row:?}");
    }
}

#[test]
fn every_scale_has_the_parent_and_mode_of_the_reference() {
    for row in rows(TRIADS) {
        let [family, parent_tonic, mode, ..] = row[..] else { panic!("{row:?}") };
        let scale = answer(&row).scale;
        let parent = scale.scale().parent();
        assert_eq!(words(parent), format!("{parent_tonic} {family}"), "{row:?}");
        assert_eq!(parent.map(|parent| parent.mode.to_string()).as_deref(), Some(mode), "{row:?}");
    }
}
