//! Measures.

use fretloom_theory::{Bar, BarLabel, Quarters};

use super::attributes;
use super::direction;
use super::duration;
use super::harmony;
use super::note;
use super::reading::{Notes, Reading};
use super::unfolding::Measure;
use crate::score_file::element::Element;
use crate::score_file::error::ScoreFileError;
use crate::score_file::xml::Xml;

/// How far, in quarter notes, a step back may reach beyond the beginning of its measure: programs
/// round divisions.
const CLOSE_QUARTERS: f64 = 0.01;

/// Reads a measure that has just been opened.
pub(super) fn read(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    opened: &Element,
) -> Result<(), ScoreFileError> {
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
    let marks = std::mem::take(&mut reading.marks);
    if !marks.is_empty() {
        reading.found.marks.insert(reading.bar_index, marks);
    }
    reading.bar_index += 1;
    // A measure is as long as its longest voice, wherever its last one ended.
    reading.cursor = reading.furthest;
    if reading.notes == Notes::Kept {
        let (from, length) = (reading.bar_from, reading.furthest.minus(reading.bar_from));
        reading.found.measures.push(Measure { from, length, offset: opened.offset });
        keep_bar(reading, opened.attribute("implicit") == Some("yes"));
    }
    Ok(())
}

fn is_read(name: &str) -> bool {
    let names =
        ["note", "backup", "forward", "attributes", "direction", "sound", "barline", "harmony"];
    names.contains(&name)
}

fn piece(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), ScoreFileError> {
    match element.name.as_str() {
        "note" => note::read(reading, xml, element)?,
        "backup" => back_up(reading, xml, element)?,
        "forward" => {
            let length = duration::read(reading, xml, element)?;
            reading.advance(length);
        }
        "attributes" => attributes::read(reading, xml, element)?,
        "direction" => direction::read(reading, xml, element)?,
        "sound" => direction::read_sound(reading, xml, element)?,
        "harmony" => harmony::read(reading, element),
        _ => reading.marks.add_bar_line(element),
    }
    Ok(())
}

fn back_up(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), ScoreFileError> {
    reading.settle_graces();
    let length = duration::read(reading, xml, element)?;
    let back_to = reading.cursor.to_f64() - length.to_f64();
    if back_to < reading.bar_from.to_f64() - CLOSE_QUARTERS {
        let wrong = format!("a step back by {} quarter notes", length.to_f64());
        return Err(xml.fail(element.offset, wrong, "one that stays within the measure"));
    }
    reading.back_up(length);
    Ok(())
}

/// Adds the measure that has just been read to the bars, if it has any length.
fn keep_bar(reading: &mut Reading<'_>, is_implicit: bool) {
    let from = reading.bar_from.quarters();
    let length = reading.furthest.minus(reading.bar_from).quarters();
    reading.found.end = reading.furthest.quarters();
    if length.is_zero() {
        return;
    }
    let meter = reading.meter;
    let missing = match reading.found.bars.last() {
        // A first bar that is short is a pick-up.
        None => meter.bar().checked_sub(length),
        Some(before) if is_implicit && !before.is_whole() => begun(before, length),
        Some(_) => None,
    };
    let (missing, label) = (missing.unwrap_or_default(), label(&reading.bar));
    reading.found.bars.push(Bar { from, length, meter, missing, label });
}

/// How much of a bar a short one has begun that one of this length completes.
fn begun(before: &Bar, length: Quarters) -> Option<Quarters> {
    let begun = before.missing.checked_add(before.length)?;
    begun.checked_add(length).filter(|whole| *whole <= before.meter.bar()).map(|_| begun)
}

/// A plain number counts; anything else is text.
fn label(bar: &str) -> BarLabel {
    let number = bar.parse().ok().filter(|number: &u64| number.to_string() == bar);
    number.map_or_else(|| BarLabel::Text(bar.into()), BarLabel::Number)
}
