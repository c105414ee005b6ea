//! Notes.

use fretloom_fretboard::{Fret, Pin, StringNumber};
use fretloom_theory::Pitch;

use super::element::Element;
use super::part::{RawNote, Reading};
use super::xml::Xml;
use crate::line_file::line::too_many;
use crate::line_file::{LineError, MOST_NOTES};

/// Reads one `<note>`.
pub(super) fn read(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<(), LineError> {
    let is_grace = element.has("grace");
    let is_chord = element.has("chord");
    if !is_grace && !is_chord && !element.has("rest") {
        reading.settle_graces(reading.cursor);
    }
    let quarters = if is_grace { 0.0 } else { reading.quarters(xml, element)? };
    let onset = reading.onset(xml, element)?;
    if reading.keeps_notes() && reading.is_played(element) {
        let pitch = pitch(reading, xml, element)?;
        add(reading, xml, element, &Sound { pitch, onset, quarters })?;
    }
    if !is_chord && !is_grace {
        reading.last_onset = Some(onset);
        reading.advance(quarters);
    }
    Ok(())
}

/// What of a note has been read.
struct Sound {
    pitch: Pitch,
    onset: f64,
    quarters: f64,
}

impl Reading<'_> {
    /// Where a note begins: a chord's other notes with the first.
    fn onset(&mut self, xml: &mut Xml<'_>, element: &Element) -> Result<f64, LineError> {
        if !element.has("chord") || element.has("grace") {
            return Ok(self.cursor);
        }
        self.last_onset.ok_or_else(|| {
            let wrong = "another note of a chord".to_owned();
            xml.fail(element.offset, wrong, "the chord's first note before it")
        })
    }

    /// Does it sound with a pitch? What does not is counted.
    fn is_played(&mut self, element: &Element) -> bool {
        if element.has("cue") {
            self.part.cues += 1;
        } else if element.has("unpitched") {
            self.part.unpitched += 1;
        }
        !["rest", "cue", "unpitched"].iter().any(|name| element.has(name))
    }
}

/// Adds a note, or makes the one longer that is tied to it.
fn add(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
    sound: &Sound,
) -> Result<(), LineError> {
    let staff = element.child("staff").and_then(|staff| staff.text.trim().parse().ok());
    let staff = staff.unwrap_or(1);
    let to_quarter = sound.onset + sound.quarters;
    let index = match tied_to(reading, element, staff, sound) {
        Some(index) => {
            if let Some(note) = reading.part.notes.get_mut(index) {
                note.quarters = to_quarter - note.from_quarter;
            }
            index
        }
        None => push(reading, xml, element, (staff, sound))?,
    };
    if is_tied(element, "start") {
        reading.ties.wait(staff, sound.pitch, index, to_quarter);
    }
    Ok(())
}

fn is_tied(element: &Element, way: &str) -> bool {
    element.children_named("tie").any(|tie| tie.attribute("type") == Some(way))
}

fn tied_to(
    reading: &mut Reading<'_>,
    element: &Element,
    staff: u32,
    sound: &Sound,
) -> Option<usize> {
    let goes_on = is_tied(element, "stop") && !element.has("grace");
    if goes_on { reading.ties.taken(staff, sound.pitch, sound.onset) } else { None }
}

fn push(
    reading: &mut Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
    (staff, sound): (u32, &Sound),
) -> Result<usize, LineError> {
    let index = reading.part.notes.len();
    if index == MOST_NOTES {
        return Err(too_many());
    }
    let is_grace = element.has("grace");
    let grace = is_grace.then(|| reading.new_grace(element.has("chord")));
    if is_grace {
        reading.graces.push(index);
    }
    let beat = (sound.onset - reading.bar_from) / reading.beat_quarters + 1.0;
    reading.part.notes.push(RawNote {
        from_quarter: sound.onset,
        quarters: sound.quarters,
        grace,
        pitch: sound.pitch,
        pin: pin(xml, element)?,
        staff,
        bar: reading.bar.clone(),
        bar_index: reading.bar_index,
        beat,
        offset: element.offset,
    });
    Ok(index)
}

/// The pitch as it sounds.
fn pitch(reading: &Reading<'_>, xml: &mut Xml<'_>, element: &Element) -> Result<Pitch, LineError> {
    const EXPECTED: &str = "a pitch: a step A to G, an octave and whole semitones of alteration";
    let Some(pitch) = element.child("pitch") else {
        return Err(xml.fail(element.offset, "a note without a pitch".to_owned(), EXPECTED));
    };
    let step = pitch.child("step").and_then(|step| semitones_above_c(step.text.trim()));
    let octave = pitch.child_number("octave", xml, EXPECTED)?;
    let alter = pitch.child_number("alter", xml, EXPECTED)?.unwrap_or_default();
    let (Some(step), Some(octave)) = (step, octave) else {
        return Err(xml.fail(pitch.offset, "a pitch that cannot be read".to_owned(), EXPECTED));
    };
    let written = 12.0 * (octave + 1.0) + step + alter;
    let staff = element.child("staff").and_then(|staff| staff.text.trim().parse().ok());
    let sounding = written + f64::from(reading.transposed_by(staff.unwrap_or(1)));
    whole(sounding).and_then(Pitch::from_midi).ok_or_else(|| {
        let wrong = format!("a pitch with the MIDI number {sounding}");
        xml.fail(pitch.offset, wrong, "a whole number, 0 to 127")
    })
}

/// A whole number that a byte holds.
fn whole(number: f64) -> Option<u8> {
    let fits = number.fract() == 0.0 && (0.0..=255.0).contains(&number);
    fits.then_some(number as u8)
}

fn semitones_above_c(step: &str) -> Option<f64> {
    Some(match step {
        "C" => 0.0,
        "D" => 2.0,
        "E" => 4.0,
        "F" => 5.0,
        "G" => 7.0,
        "A" => 9.0,
        "B" => 11.0,
        _ => return None,
    })
}

/// What `<string>` and `<fret>` settle.
fn pin(xml: &mut Xml<'_>, element: &Element) -> Result<Pin, LineError> {
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
) -> Result<T, LineError> {
    let read = element.text.trim().parse().ok().and_then(checked);
    read.ok_or_else(|| xml.found(element.offset, &element.text, expected))
}
