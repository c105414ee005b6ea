//! What stands in a measure besides notes.

use super::element::Element;
use super::note;
use super::part::{Notes, Reading};
use super::xml::Xml;
use crate::line_file::LineError;
use crate::line_file::tempo::TempoChange;

/// Attributes of `<sound>` that send the player elsewhere.
const JUMPS: [&str; 6] = ["dacapo", "dalsegno", "segno", "coda", "tocoda", "fine"];

/// Reads a measure that has just been opened.
pub(super) fn read(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    opened: &Element,
) -> Result<(), LineError> {
    let counted = || (reading.bar_index + 1).to_string();
    let number = opened.attribute("number").map(|number| number.chars().take(20).collect());
    reading.bar = number.unwrap_or_else(counted);
    reading.bar_from = reading.cursor;
    reading.furthest = reading.cursor;
    while let Some(element) = xml.next_child()? {
        if is_read(&element.name) {
            let whole = xml.whole(element)?;
            piece(reading, xml, &whole)?;
        } else {
            xml.skip()?;
        }
    }
    reading.bar_index += 1;
    // A measure is as long as its longest voice, wherever its last one ended.
    reading.cursor = reading.furthest;
    Ok(())
}

fn is_read(name: &str) -> bool {
    let names = ["note", "backup", "forward", "attributes", "direction", "sound", "barline"];
    names.contains(&name)
}

fn piece(reading: &mut Reading<'_>, xml: &mut Xml<'_>, element: &Element) -> Result<(), LineError> {
    match element.name.as_str() {
        "note" => note::read(reading, xml, element)?,
        "backup" => back_up(reading, xml, element)?,
        "forward" => {
            let quarters = reading.quarters(xml, element)?;
            reading.advance(quarters);
        }
        "attributes" => attributes(reading, xml, element)?,
        "direction" => direction(reading, xml, element)?,
        "sound" => sound(reading, xml, element)?,
        _ => reading.part.has_repeats |= element.has("repeat") || element.has("ending"),
    }
    Ok(())
}

fn back_up(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), LineError> {
    reading.settle_graces(reading.cursor);
    let quarters = reading.quarters(xml, element)?;
    // Programs round divisions: a little too far back is the beginning.
    if reading.cursor - quarters < reading.bar_from - 0.01 {
        let wrong = format!("a step back by {quarters} quarter notes");
        return Err(xml.fail(element.offset, wrong, "one that stays within the measure"));
    }
    reading.advance(-quarters);
    reading.cursor = reading.cursor.max(reading.bar_from);
    Ok(())
}

impl Reading<'_> {
    /// The duration of an element in quarter notes.
    pub(super) fn quarters(
        &mut self,
        xml: &mut Xml<'_>,
        element: &Element,
    ) -> Result<f64, LineError> {
        const EXPECTED: &str = "a duration in divisions, 0 or more";
        let Some(duration) = element.child("duration") else {
            let wrong = format!("a {} without a duration", element.name);
            return Err(xml.fail(element.offset, wrong, EXPECTED));
        };
        let number = duration.number(xml, EXPECTED)?;
        if number < 0.0 {
            return Err(xml.found(duration.offset, &duration.text, EXPECTED));
        }
        let Some(divisions) = self.divisions else {
            let wrong = "a duration before any divisions".to_owned();
            let expected = "the divisions of a quarter note first";
            return Err(xml.fail(duration.offset, wrong, expected));
        };
        Ok(number / divisions)
    }
}

fn attributes(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), LineError> {
    if let Some(divisions) = element.child("divisions") {
        const EXPECTED: &str = "divisions of a quarter note, above 0";
        let number = divisions.number(xml, EXPECTED)?;
        if number <= 0.0 {
            return Err(xml.found(divisions.offset, &divisions.text, EXPECTED));
        }
        reading.divisions = Some(number);
    }
    if let Some(beat_type) = element.child("time").and_then(|time| time.child("beat-type")) {
        // Only for messages: a beat type that is no number leaves the one before.
        let number = beat_type.text.trim().parse().ok().filter(|n: &f64| (1.0..=128.0).contains(n));
        reading.beat_quarters = number.map_or(reading.beat_quarters, |number| 4.0 / number);
    }
    let is_tablature = |clef: &&Element| {
        clef.child("sign").is_some_and(|sign| sign.text.trim().eq_ignore_ascii_case("TAB"))
    };
    if let Some(clef) = element.children_named("clef").find(is_tablature) {
        reading.part.tablature = Some(staff_number(clef).unwrap_or(1));
    }
    element.children_named("transpose").try_for_each(|transpose| {
        let semitones = transposition(xml, transpose)?;
        let staff = staff_number(transpose);
        reading.transposes.retain(|(of, _)| *of != staff);
        reading.transposes.push((staff, semitones));
        Ok(())
    })
}

fn staff_number(element: &Element) -> Option<u32> {
    element.attribute("number").and_then(|number| number.parse().ok())
}

/// Semitones from what is written to what sounds.
fn transposition(xml: &mut Xml<'_>, element: &Element) -> Result<i32, LineError> {
    const EXPECTED: &str = "whole semitones or octaves, at most 10 octaves";
    let mut semitones = 0.0;
    for (name, size) in [("chromatic", 1.0), ("octave-change", 12.0)] {
        let number = element.child_number(name, xml, EXPECTED)?.unwrap_or_default();
        semitones += number * size;
    }
    if semitones.fract() != 0.0 || semitones.abs() > 120.0 {
        return Err(xml.found(element.offset, &semitones.to_string(), EXPECTED));
    }
    Ok(semitones as i32)
}

/// Takes the tempo from `<sound>` where there is one, else from the metronome mark.
fn direction(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), LineError> {
    if let Some(element) = element.child("sound") {
        sound(reading, xml, element)?;
        if element.attribute("tempo").is_some() {
            return Ok(());
        }
    }
    let types = element.children_named("direction-type");
    let marks = types.flat_map(|kind| kind.children_named("metronome"));
    for mark in marks {
        if let Some(a_minute) = metronome(mark) {
            reading.set_tempo(xml, mark.offset, a_minute)?;
        }
    }
    Ok(())
}

fn sound(reading: &mut Reading<'_>, xml: &mut Xml<'_>, element: &Element) -> Result<(), LineError> {
    reading.part.has_repeats |= JUMPS.iter().any(|jump| element.attribute(jump).is_some());
    let Some(text) = element.attribute("tempo") else { return Ok(()) };
    let a_minute = xml.number(text, element.offset, TEMPO)?;
    reading.set_tempo(xml, element.offset, a_minute)
}

/// What a tempo must be.
const TEMPO: &str = "a tempo: quarter notes a minute, above 0";

impl Reading<'_> {
    fn set_tempo(
        &mut self,
        xml: &mut Xml<'_>,
        offset: usize,
        a_minute: f64,
    ) -> Result<(), LineError> {
        if a_minute <= 0.0 {
            return Err(xml.found(offset, &a_minute.to_string(), TEMPO));
        }
        self.tempi.push(TempoChange { at_quarter: self.cursor, quarter_s: 60.0 / a_minute });
        Ok(())
    }

    /// Does this part's reader look at notes?
    pub(super) fn keeps_notes(&self) -> bool {
        self.keep == Notes::Kept
    }
}

/// Quarter notes a minute by a metronome mark; `None` for one that gives no number, as `c. 120` or
/// a note that equals another.
fn metronome(mark: &Element) -> Option<f64> {
    let a_minute: f64 = mark.child("per-minute")?.text.trim().parse().ok()?;
    let quarters = match mark.child("beat-unit")?.text.trim() {
        "whole" => 4.0,
        "half" => 2.0,
        "quarter" => 1.0,
        "eighth" => 0.5,
        "16th" => 0.25,
        "32nd" => 0.125,
        _ => return None,
    };
    // One dot makes half as much again, a second a quarter more: 2 - 1/2^dots.
    let dots = mark.children_named("beat-unit-dot").take(4).count();
    let dotted = (1..=dots).fold((1.0, 1.0), |(sum, dot), _| (sum + dot / 2.0, dot / 2.0)).0;
    Some(a_minute * quarters * dotted).filter(|a_minute| a_minute.is_finite() && *a_minute > 0.0)
}
