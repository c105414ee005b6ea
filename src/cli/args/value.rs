//! Values of options that are words, and what is said of one that cannot be read: it goes on where
//! clap has said which option it is of.

use std::str::FromStr;

use fretloom_theory::{ClickBeats, Families, KeyCycle, PairKinds, ReadError, Swing};

use crate::answer::ChordKind;
use crate::library::Reader;
use crate::picture::page::Paper;
use crate::picture::{FretWidths, Labels};
use crate::sound::{ConcertPitch, Level};
use crate::store::Beats;
use crate::tui::pedal::Pedal;

pub(super) fn families(text: &str) -> Result<Families, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn kinds(text: &str) -> Result<PairKinds, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn fret_widths(text: &str) -> Result<FretWidths, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn labels(text: &str) -> Result<Labels, String> {
    Labels::from_str(text).map_err(|error| {
        format!("\"{}\" cannot stand in the marks: expected {}", error.text(), error.advice())
    })
}

pub(super) fn pedal(text: &str) -> Result<Pedal, String> {
    Pedal::from_str(text).map_err(|error| {
        format!("no key is written {:?}; expected {}", error.text(), error.advice())
    })
}

pub(super) fn reader(text: &str) -> Result<Reader, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn paper(text: &str) -> Result<Paper, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn swing(text: &str) -> Result<Swing, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn click(text: &str) -> Result<ClickBeats, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn concert_pitch(text: &str) -> Result<ConcertPitch, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn chord_kind(text: &str) -> Result<ChordKind, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn beats(text: &str) -> Result<Beats, &'static str> {
    let read = text.trim().parse().ok().and_then(Beats::new);
    read.ok_or("expected whole quarter notes a minute, 20 to 400, as in 60")
}

pub(super) fn key_order(text: &str) -> Result<KeyCycle, String> {
    text.parse().map_err(|error| is_none(&error))
}

pub(super) fn level(text: &str) -> Result<Level, String> {
    text.parse().map_err(|error| is_none(&error))
}

fn is_none(error: &ReadError) -> String {
    format!("\"{}\" is no {}: expected {}", error.text(), error.what(), error.advice())
}

/// Reads a whole number from `low` to `high`.
pub(super) fn number(low: u8, high: u8) -> impl Fn(&str) -> Result<u8, String> + Clone {
    move |text| {
        let read = text.parse().ok().filter(|number| (low..=high).contains(number));
        read.ok_or_else(|| format!("expected a number from {low} to {high}"))
    }
}

/// Reads a whole number that may be negative, at most `most` either way.
pub(super) fn up_or_down(most: i8) -> impl Fn(&str) -> Result<i8, String> + Clone {
    move |text| {
        let read = text.parse().ok().filter(|number| (-most..=most).contains(number));
        read.ok_or_else(|| format!("expected a number from -{most} to {most}"))
    }
}
