//! `<attributes>`: divisions, keys, meters, clefs, transposition.

use fretloom_theory::{KeySignature, Meter};

use super::reading::Reading;
use super::staff_tuning::StaffTuning;
use super::transposition::Transposition;
use crate::score_file::element::Element;
use crate::score_file::error::ScoreFileError;
use crate::score_file::xml::Xml;

/// Reads `<attributes>`.
pub(super) fn read(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), ScoreFileError> {
    if let Some(divisions) = element.child("divisions") {
        reading.divisions = Some(divisions_of(xml, divisions)?);
    }
    if let Some(meter) = element.child("time").and_then(|time| meter(time, reading.meter)) {
        reading.meter = meter;
    }
    if let Some(key) = element.child("key").and_then(key) {
        reading.found.keys.push((reading.cursor.quarters(), key));
    }
    if let Some(clef) = element.children_named("clef").find(|clef| is_tablature(clef)) {
        reading.found.tablature = Some(staff_number(clef).unwrap_or(1));
    }
    for details in element.children_named("staff-details") {
        let tuning = StaffTuning::read(details);
        let staff = reading.found.tunings.entry(staff_number(details).unwrap_or(1)).or_default();
        *staff = std::mem::take(staff).completed(tuning);
    }
    element.children_named("transpose").try_for_each(|transpose| {
        let transposition = transposition(xml, transpose)?;
        let staff = staff_number(transpose);
        reading.transpositions.insert(staff, transposition);
        Ok(())
    })
}

fn divisions_of(xml: &mut Xml<'_>, element: &Element) -> Result<f64, ScoreFileError> {
    const EXPECTED: &str = "divisions of a quarter note, above 0";
    let number = xml.number_in(element, EXPECTED)?;
    if number <= 0.0 {
        return Err(xml.found(element.offset, &element.text, EXPECTED));
    }
    Ok(number)
}

fn is_tablature(clef: &Element) -> bool {
    clef.child_text("sign").is_some_and(|sign| sign.eq_ignore_ascii_case("TAB"))
}

fn staff_number(element: &Element) -> Option<u32> {
    element.attribute("number").and_then(|number| number.parse().ok())
}

/// The meter; where only its lower number can be read, so many of those as before. `None` for what
/// is no meter, which leaves the one before.
fn meter(time: &Element, before: Meter) -> Option<Meter> {
    let kinds = time.children_named("beat-type").map(|kind| whole(&kind.text));
    let kinds: Vec<u8> = kinds.collect::<Option<_>>()?;
    let finest = kinds.iter().copied().max()?;
    // 3/4 + 2/8 is 8/8.
    let mut counts = time.children_named("beats").zip(&kinds);
    let units = counts.try_fold(0u8, |sum, (count, kind)| {
        sum.checked_add(units(&count.text)?.checked_mul(finest / kind)?)
    });
    Meter::new(units.filter(|units| *units > 0).unwrap_or(before.units()), finest)
}

/// `4`, or `3+2` in all.
fn units(text: &str) -> Option<u8> {
    text.split('+').try_fold(0u8, |sum, units| sum.checked_add(units.trim().parse().ok()?))
}

/// A whole number from 1 to 128, with or without decimals.
fn whole(text: &str) -> Option<u8> {
    let number: f64 = text.trim().parse().ok()?;
    (number.fract() == 0.0 && (1.0..=128.0).contains(&number)).then_some(number as u8)
}

/// The signature; modes other than minor have that of a major key. `None` for keys that are not
/// so many sharps or flats.
fn key(key: &Element) -> Option<KeySignature> {
    let sharps = key.readable("fifths")?;
    match key.child_text("mode") {
        Some("minor") => KeySignature::minor(sharps),
        _ => KeySignature::major(sharps),
    }
}

/// From what is written to what sounds.
fn transposition(xml: &mut Xml<'_>, element: &Element) -> Result<Transposition, ScoreFileError> {
    const EXPECTED: &str = "whole semitones or octaves, at most 10 octaves";
    let chromatic = xml.number_in_child(element, "chromatic", EXPECTED)?.unwrap_or_default();
    let octaves = xml.number_in_child(element, "octave-change", EXPECTED)?.unwrap_or_default();
    let semitones = chromatic + octaves * 12.0;
    if semitones.fract() != 0.0 || semitones.abs() > 120.0 {
        return Err(xml.found(element.offset, &semitones.to_string(), EXPECTED));
    }
    // The letters are said without the octaves.
    let letters: Option<i8> = element.readable("diatonic");
    let letters = letters.filter(|_| octaves.fract() == 0.0 && octaves.abs() <= 20.0);
    let steps = letters.map(|steps| i32::from(steps) + 7 * octaves as i32);
    Ok(Transposition::new(semitones as i32, steps))
}
