//! Notes.

use fretloom_fretboard::{Fret, Pin, StringNumber};
use fretloom_theory::{Letter, NamedPitch, Pitch};

use super::duration;
use super::names::{altered, letter};
use super::raw_note::{RawNote, Tied};
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
    match reading.notes {
        Notes::Kept => {
            if is_played(reading, element) {
                let pitch = pitch(reading, xml, element)?;
                add(reading, xml, element, &Sounding { pitch, from, duration: length })?;
            }
        }
        Notes::Counted => count(reading, element),
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

/// Counts a note of a part that is not wanted. One that cannot be read is as good as not there.
fn count(reading: &mut Reading<'_>, element: &Element) {
    if NOT_PLAYED.iter().any(|name| element.has(name)) || tied(element).comes_over {
        return;
    }
    let named = element.child("pitch").and_then(|pitch| {
        let alter: f64 = pitch.readable("alter").unwrap_or_default();
        Some((letter(pitch.child_text("step")?)?, pitch.readable::<f64>("octave")?, alter))
    });
    let written = named.map(|(step, octave, alter)| written(step, octave, alter));
    let by = reading.transposition(element.staff()).semitones();
    let sounding = written.and_then(|written| whole(written + f64::from(by)));
    if let Some(pitch) = sounding.and_then(Pitch::from_midi) {
        reading.found.tally.entry(element.staff()).or_default().count(pitch);
    }
}

/// What stands where a pitch does and is none that is played.
const NOT_PLAYED: [&str; 3] = ["rest", "cue", "unpitched"];

/// The MIDI number of what is written.
fn written(step: Letter, octave: f64, alter: f64) -> f64 {
    12.0 * (octave + 1.0) + f64::from(step.semitones_above_c()) + alter
}

/// Does it sound with a pitch? What does not is counted.
fn is_played(reading: &mut Reading<'_>, element: &Element) -> bool {
    if element.has("cue") {
        reading.found.cues += 1;
    } else if element.has("unpitched") {
        reading.found.unpitched += 1;
    }
    !NOT_PLAYED.iter().any(|name| element.has(name))
}

/// The ties of a note. Those of a grace note are to its main note, which it only leads to.
fn tied(element: &Element) -> Tied {
    let is_tied = |way| {
        let mut ties = element.children_named("tie");
        !element.has("grace") && ties.any(|tie| tie.attribute("type") == Some(way))
    };
    Tied { goes_on: is_tied("start"), comes_over: is_tied("stop") }
}

/// Adds a note.
fn add(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
    sounding: &Sounding,
) -> Result<(), ScoreFileError> {
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
        tie: tied(element),
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
    Ok(())
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
    let written = written(step, octave, alter);
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
