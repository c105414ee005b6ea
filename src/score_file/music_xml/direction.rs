//! `<direction>` and `<sound>`: tempi and jumps.

use fretloom_theory::Tempo;

use super::reading::Reading;
use super::tempo_change::TempoChange;
use crate::score_file::element::Element;
use crate::score_file::error::ScoreFileError;
use crate::score_file::xml::Xml;

/// What a tempo must be.
const TEMPO: &str = "a tempo: quarter notes a minute, above 0";

/// Takes the tempo from `<sound>` where there is one, else from the metronome mark.
pub(super) fn read(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), ScoreFileError> {
    reading.marks.add_direction(element);
    if let Some(element) = element.child("sound") {
        read_sound(reading, xml, element)?;
        if element.attribute("tempo").is_some() {
            return Ok(());
        }
    }
    let types = element.children_named("direction-type");
    let marks = types.flat_map(|kind| kind.children_named("metronome"));
    for mark in marks {
        if let Some(a_minute) = metronome(mark) {
            set_tempo(reading, xml, mark.offset, a_minute)?;
        }
    }
    Ok(())
}

/// Reads `<sound>`.
pub(super) fn read_sound(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), ScoreFileError> {
    reading.marks.add_sound(element);
    let Some(text) = element.attribute("tempo") else { return Ok(()) };
    let a_minute = xml.number(text, element.offset, TEMPO)?;
    set_tempo(reading, xml, element.offset, a_minute)
}

fn set_tempo(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    offset: usize,
    a_minute: f64,
) -> Result<(), ScoreFileError> {
    if a_minute <= 0.0 {
        return Err(xml.found(offset, &a_minute.to_string(), TEMPO));
    }
    // Only numbers that no music has are no tempo: the nearest of one to a billion stands in.
    let tempo = Tempo::nearest(a_minute).or_else(|| Tempo::nearest(a_minute.clamp(1e-9, 1e9)));
    let from = reading.cursor;
    reading.tempi.extend(tempo.map(|tempo| TempoChange { from, tempo }));
    Ok(())
}

/// Quarter notes a minute by a metronome mark; `None` for one that gives no number, as `c. 120` or
/// a note that equals another.
fn metronome(mark: &Element) -> Option<f64> {
    let a_minute: f64 = mark.readable("per-minute")?;
    let quarters = match mark.child_text("beat-unit")? {
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
