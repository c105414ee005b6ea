//! Reads the value of a setting, or says what was expected.

use fretloom_fretboard::{Hand, Tuning};
use fretloom_theory::{Families, KeyCycle, Swing};
use toml::de::DeValue;

use super::known::Known;
use crate::library::fields::{count, decimal};
use crate::sound::{ConcertPitch, Level};
use crate::store::Beats;
use crate::words::nearest;

/// The version of the file format.
pub(super) fn format(value: &DeValue<'_>) -> Result<u32, String> {
    count(value).ok_or_else(|| "a version, as in 1".to_owned())
}

/// The meaning of one of some words.
pub(super) fn one_of<T: Copy>(value: &DeValue<'_>, words: &[(&str, T)]) -> Result<T, String> {
    let written = value.as_str().unwrap_or_default();
    let found = words.iter().find(|(word, _)| *word == written);
    let names = words.iter().map(|(word, _)| *word);
    found.map(|(_, meaning)| *meaning).ok_or_else(|| choice_of(written, names))
}

/// The word for a meaning.
pub(super) fn word<T: PartialEq>(meaning: &T, words: &[(&str, T)]) -> String {
    let found = words.iter().find(|(_, known)| known == meaning);
    found.map(|(word, _)| (*word).to_owned()).unwrap_or_default()
}

/// What was expected: one of these words, as in `"a" or "b"; did you mean "a"?`.
fn choice_of<'a>(written: &str, words: impl Iterator<Item = &'a str> + Clone) -> String {
    let quoted: Vec<String> = words.clone().map(|word| format!("\"{word}\"")).collect();
    let all = match quoted.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} or {last}", before.join(", ")),
        _ => quoted.concat(),
    };
    match nearest(written, words) {
        Some(near) => format!("{all}; did you mean \"{near}\"?"),
        None => all,
    }
}

/// The name of a known theme.
pub(super) fn theme(value: &DeValue<'_>, known: &Known<'_>) -> Result<String, String> {
    let written = value.as_str().unwrap_or_default();
    if known.themes.contains(&written) {
        return Ok(written.to_owned());
    }
    Err(choice_of(written, known.themes.iter().copied()))
}

/// A known tuning, or one given by its strings.
pub(super) fn tuning(value: &DeValue<'_>, known: &Known<'_>) -> Result<String, String> {
    let written = value.as_str().unwrap_or_default();
    let tunings = known.tunings;
    let is_known =
        tunings.by_id_or_name(written).is_some() || tunings.best_match(written).is_some();
    if is_known || Tuning::read(written).is_ok() {
        return Ok(written.to_owned());
    }
    let ids = tunings.iter().map(|(tuning, _)| tuning.id());
    let near = nearest(written, ids).map(|near| format!("; did you mean \"{near}\"?"));
    let expected = "a tuning of `fretloom tunings`, or its strings, as in \"D A D G A D\"";
    Err(expected.to_owned() + &near.unwrap_or_default())
}

/// One of the families that the screen offers too.
pub(super) fn families(value: &DeValue<'_>) -> Result<Families, String> {
    let turns = Families::usual().map(|(families, _)| families);
    let words = turns.each_ref().map(ToString::to_string);
    let written = value.as_str().unwrap_or_default();
    let families = written.parse().ok().filter(|families| turns.contains(families));
    families.ok_or_else(|| choice_of(written, words.iter().map(String::as_str)))
}

/// A hand by its reach.
pub(super) fn hand(value: &DeValue<'_>) -> Result<Hand, String> {
    let hand = decimal(value).and_then(Hand::reaching_mm);
    hand.ok_or_else(|| "millimetres from 40 to 200, as in 110".to_owned())
}

/// The key of a foot pedal, or `none`.
pub(super) fn pedal(value: &DeValue<'_>, known: &Known<'_>) -> Result<String, String> {
    (known.pedal)(value.as_str().unwrap_or_default())
}

/// What A4 is, in hertz.
pub(super) fn concert_pitch(value: &DeValue<'_>) -> Result<ConcertPitch, String> {
    let read = decimal(value).and_then(ConcertPitch::new);
    read.ok_or_else(|| "hertz from 380 to 480, as in 440 or 442.5".to_owned())
}

/// How eighths are played.
pub(super) fn swing(value: &DeValue<'_>) -> Result<Swing, String> {
    let read = value.as_str().and_then(|text| text.parse().ok());
    read.ok_or_else(|| {
        "the first eighth to the second, \"1:1\" to \"3:1\", as in \"2:1\"".to_owned()
    })
}

/// How loud something is.
pub(super) fn level(value: &DeValue<'_>) -> Result<Level, String> {
    let percent = count(value).and_then(|percent| u8::try_from(percent).ok());
    percent.and_then(Level::new).ok_or_else(|| "a level from 0 to 100, as in 70".to_owned())
}

/// A whole number in a range.
pub(super) fn whole<T: TryFrom<u32>>(
    value: &DeValue<'_>,
    low: u32,
    high: u32,
) -> Result<T, String> {
    let read = count(value).filter(|number| (low..=high).contains(number));
    let read = read.and_then(|number| T::try_from(number).ok());
    read.ok_or_else(|| format!("a whole number from {low} to {high}"))
}

/// A tempo to practise at.
pub(super) fn beats(value: &DeValue<'_>) -> Result<Beats, String> {
    let read = count(value).and_then(|number| u16::try_from(number).ok()).and_then(Beats::new);
    read.ok_or_else(|| "whole quarter notes a minute, 20 to 400, as in 60".to_owned())
}

/// An order of the twelve keys.
pub(super) fn key_order(value: &DeValue<'_>) -> Result<KeyCycle, String> {
    let read = value.as_str().and_then(|text| text.parse().ok());
    read.ok_or_else(|| "\"fourths\", \"semitones\", \"tones\" or \"shuffled:7\"".to_owned())
}

/// True or false.
pub(super) fn switch(value: &DeValue<'_>) -> Result<bool, String> {
    value.as_bool().ok_or_else(|| "true or false".to_owned())
}
