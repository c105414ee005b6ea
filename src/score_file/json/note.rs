//! One note of the list.

use fretloom_fretboard::{Fret, Pin, StringNumber};
use fretloom_theory::{NamedPitch, Note, NoteName, Pitch, Quarters};
use serde_json::value::RawValue;

use super::clock::Clock;
use super::fields::{BEATS, Fields, SECONDS};
use super::frame::Frame;
use crate::score_file::error::{At, ScoreFileError};
use crate::score_file::origin::NoteOrigin;
use crate::score_file::read_score::NoteSource;
use crate::score_file::recorded::recorded;

const KEYS: [&str; 5] = ["onset_s", "duration_s", "midi", "string", "fret"];

pub(super) fn note(
    raw: &RawValue,
    number: usize,
    at: At,
    clock: Clock,
    frame: &Frame,
) -> Result<(Note, NoteSource), ScoreFileError> {
    let fields = Fields::read(raw, at, "a note: an object with numbers")?;
    let note = match clock {
        Clock::Seconds => in_seconds(fields.only(&KEYS)?, frame)?,
        Clock::Beats => in_beats(&fields)?,
    };
    let pin = Pin {
        string: fields.optional("string", "a string number, 1 to 12", StringNumber::new)?,
        fret: fields.optional("fret", "a fret number, 0 to 36", Fret::new)?,
    };
    let bar = frame.bar_of(&note);
    Ok((note, NoteSource { pin, bar, origin: NoteOrigin::Listed { number, at } }))
}

fn in_seconds(fields: &Fields, frame: &Frame) -> Result<Note, ScoreFileError> {
    let onset_s = fields.amount("onset_s", SECONDS)?;
    let duration_s = fields.amount("duration_s", SECONDS)?;
    let pitch = pitch(fields)?;
    let note = recorded(frame.tempi(), onset_s, duration_s, NamedPitch::everyday(pitch));
    note.ok_or_else(|| fields.fail("onset_s", SECONDS))
}

fn in_beats(fields: &Fields) -> Result<Note, ScoreFileError> {
    let moment = |key| {
        let beats = fields.amount(key, BEATS)?;
        Quarters::nearest(beats).ok_or_else(|| fields.fail(key, BEATS))
    };
    let (onset, duration) = (moment("onset")?, moment("duration")?);
    let pitch = pitch(fields)?;
    let name = fields.text_if_there("note").and_then(|name| name.parse::<NoteName>().ok());
    let called = name.and_then(|name| NamedPitch::called(name, pitch));
    let note = Note::new(onset, duration, called.unwrap_or_else(|| NamedPitch::everyday(pitch)));
    note.ok_or_else(|| fields.fail("duration", "a length that fits after the onset"))
}

fn pitch(fields: &Fields) -> Result<Pitch, ScoreFileError> {
    fields.small("midi", "a MIDI number, 0 to 127", Pitch::from_midi)
}
