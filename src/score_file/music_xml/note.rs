//! Notes.

use fretloom_fretboard::{Fret, Pin, StringNumber};
use fretloom_theory::{NamedPitch, Pitch};

use super::duration;
use super::names::{altered, letter};
use super::raw_note::RawNote;
use super::reading::{Notes, Reading};
use super::time::Time;
use crate::score_file::element::Element;
use crate::score_file::error::ScoreFileError;
use crate::score_file::limits::MOST_NOTES;
use crate::score_file::read_score::too_many;
use crate::score_file::xml::Xml;

/// Reads one `<note>`.
pub(super) fn read(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), ScoreFileError> {
    let is_grace = element.has("grace");
    let is_chord = element.has("chord");
    if !is_grace && !is_chord && !element.has("rest") {
        reading.settle_graces();
    }
    let length = if is_grace { Time::ZERO } else { duration::read(reading, xml, element)? };
    let from = onset(reading, xml, element)?;
    if reading.notes == Notes::Kept && is_played(reading, element) {
        let pitch = pitch(reading, xml, element)?;
        add(reading, xml, element, &Sounding { pitch, from, duration: length })?;
    }
    if !is_chord && !is_grace {
        reading.last_onset = Some(from);
        reading.advance(length);
    }
    Ok(())
}

/// What of a note has been read.
struct Sounding {
    pitch: NamedPitch,
    from: Time,
    duration: Time,
}

/// When a note begins: a chord's other notes with the first.
fn onset(
    reading: &Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<Time, ScoreFileError> {
    if !element.has("chord") || element.has("grace") {
        return Ok(reading.cursor);
    }
    reading.last_onset.ok_or_else(|| {
        let wrong = "another note of a chord".to_owned();
        xml.fail(element.offset, wrong, "the chord's first note before it")
    })
}

/// Does it sound with a pitch? What does not is counted.
fn is_played(reading: &mut Reading<'_>, element: &Element) -> bool {
    if element.has("cue") {
        reading.found.cues += 1;
    } else if element.has("unpitched") {
        reading.found.unpitched += 1;
    }
    !["rest", "cue", "unpitched"].iter().any(|name| element.has(name))
}

/// Adds a note, or makes the one longer that is tied to it.
fn add(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
    sounding: &Sounding,
) -> Result<(), ScoreFileError> {
    let (staff, pitch) = (element.staff(), sounding.pitch.pitch());
    let to = sounding.from.plus(sounding.duration);
    let index = match tied_to(reading, element, sounding) {
        Some(index) => {
            if let Some(note) = reading.found.notes.get_mut(index) {
                note.duration = to.minus(note.from);
                note.ties.push(sounding.from.quarters());
            }
            index
        }
        None => push(reading, xml, element, sounding)?,
    };
    if is_tied(element, "start") {
        reading.ties.wait(staff, pitch, index, to);
    }
    Ok(())
}

fn is_tied(element: &Element, way: &str) -> bool {
    element.children_named("tie").any(|tie| tie.attribute("type") == Some(way))
}

fn tied_to(reading: &mut Reading<'_>, element: &Element, sounding: &Sounding) -> Option<usize> {
    let goes_on = is_tied(element, "stop") && !element.has("grace");
    let pitch = sounding.pitch.pitch();
    if goes_on { reading.ties.taken(element.staff(), pitch, sounding.from) } else { None }
}

fn push(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
    sounding: &Sounding,
) -> Result<usize, ScoreFileError> {
    let index = reading.found.notes.len();
    if index == MOST_NOTES {
        return Err(too_many());
    }
    let pin = pin(xml, element)?;
    if element.has("grace") {
        reading.graces.wait(index, element.has("chord"));
    }
    let staff = element.staff();
    let since_bar = sounding.from.minus(reading.bar_from).to_f64();
    reading.found.notes.push(RawNote {
        from: sounding.from,
        duration: sounding.duration,
        ties: Vec::new(),
        grace: None,
        pitch: sounding.pitch,
        pin,
        staff,
        voice: reading.voices.voice(staff, element.child_text("voice").unwrap_or("1")),
        bar: reading.bar.clone(),
        bar_index: reading.bar_index,
        beat: since_bar / reading.meter.unit().to_f64() + 1.0,
        offset: element.offset,
    });
    Ok(index)
}

/// The pitch as it sounds, by the name that belongs to what is written.
fn pitch(
    reading: &Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<NamedPitch, ScoreFileError> {
    const EXPECTED: &str = "a pitch: a step A to G, an octave and whole semitones of alteration";
    let Some(pitch) = element.child("pitch") else {
        return Err(xml.fail(element.offset, "a note without a pitch".to_owned(), EXPECTED));
    };
    let step = pitch.child_text("step").and_then(letter);
    let octave = xml.number_in_child(pitch, "octave", EXPECTED)?;
    let alter = xml.number_in_child(pitch, "alter", EXPECTED)?.unwrap_or_default();
    let (Some(step), Some(octave)) = (step, octave) else {
        return Err(xml.fail(pitch.offset, "a pitch that cannot be read".to_owned(), EXPECTED));
    };
    let written = 12.0 * (octave + 1.0) + f64::from(step.semitones_above_c()) + alter;
    let transposition = reading.transposition(element.staff());
    let sounding = written + f64::from(transposition.semitones());
    let sounding = whole(sounding).and_then(Pitch::from_midi).ok_or_else(|| {
        let wrong = format!("a pitch with the MIDI number {sounding}");
        xml.fail(pitch.offset, wrong, "a whole number, 0 to 127")
    })?;
    Ok(transposition.sounding(altered(step, alter), sounding))
}

/// A whole number that a byte holds.
fn whole(number: f64) -> Option<u8> {
    let fits = number.fract() == 0.0 && (0.0..=255.0).contains(&number);
    fits.then_some(number as u8)
}

/// What `<string>` and `<fret>` settle.
fn pin(xml: &mut Xml<'_>, element: &Element) -> Result<Pin, ScoreFileError> {
    let notations = element.children_named("notations");
    let technical: Vec<&Element> =
        notations.flat_map(|notations| notations.children_named("technical")).collect();
    let mut pin = Pin::default();
    for mark in technical.iter().flat_map(|technical| &technical.children) {
        match mark.name.as_str() {
            "string" => {
                pin.string = Some(small(xml, mark, "a string, 1 to 12", StringNumber::new)?);
            }
            "fret" => pin.fret = Some(small(xml, mark, "a fret, 0 to 36", Fret::new)?),
            _ => {}
        }
    }
    Ok(pin)
}

fn small<T>(
    xml: &mut Xml<'_>,
    element: &Element,
    expected: &str,
    checked: impl Fn(u8) -> Option<T>,
) -> Result<T, ScoreFileError> {
    let read = element.text.trim().parse().ok().and_then(checked);
    read.ok_or_else(|| xml.found(element.offset, &element.text, expected))
}
