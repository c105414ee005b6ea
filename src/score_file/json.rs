//! Our own form: `{"notes":[{"onset_s":0.0,"duration_s":0.2,"midi":60,"string":3,"fret":5}]}`.
//!
//! `string` and `fret` are optional and settle the place. Other keys beside `notes` are left
//! alone; in a note they are refused, since a misspelled `string` would settle nothing.
//!
//! It knows seconds, which are kept, and no beats: those are counted at 120 in 4/4, so that a bar
//! lasts two seconds.

use std::fmt;

use fretloom_fretboard::{Fret, Pin, StringNumber};
use fretloom_theory::{NamedPitch, Note, Part, Pitch, Score, TempoMap};
use serde::Deserialize;
use serde::de::{Deserializer, SeqAccess, Visitor};
use serde_json::value::RawValue;
use serde_json::{Map, Value};

use super::error::{At, ScoreFileError};
use super::limits::MOST_NOTES;
use super::locator::Locator;
use super::origin::NoteOrigin;
use super::read_score::{BarsFrom, NoteSource, ReadScore, too_many};
use super::recorded::recorded;

const KEYS: [&str; 5] = ["onset_s", "duration_s", "midi", "string", "fret"];

/// What a time must be.
const SECONDS: &str = "seconds, 0 or more, as in 1.25";

/// The file, its notes still text, so that each can be found again.
#[derive(Deserialize)]
struct File<'a> {
    #[serde(borrow)]
    notes: RawNotes<'a>,
}

struct RawNotes<'a>(Vec<&'a RawValue>);

impl<'de: 'a, 'a> Deserialize<'de> for RawNotes<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_seq(NotesVisitor)
    }
}

struct NotesVisitor;

impl<'de> Visitor<'de> for NotesVisitor {
    type Value = RawNotes<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list of notes")
    }

    /// Keeps one note more than there may be, and reads past the rest.
    fn visit_seq<A: SeqAccess<'de>>(self, mut from: A) -> Result<Self::Value, A::Error> {
        let mut notes = Vec::new();
        while let Some(note) = from.next_element::<&RawValue>()? {
            if notes.len() <= MOST_NOTES {
                notes.push(note);
            }
        }
        Ok(RawNotes(notes))
    }
}

pub(super) fn read(text: &str) -> Result<ReadScore, ScoreFileError> {
    let file: File<'_> = serde_json::from_str(text).map_err(|error| unreadable(text, &error))?;
    if file.notes.0.len() > MOST_NOTES {
        return Err(too_many());
    }
    let score = Score::default();
    let mut locator = Locator::new(text);
    let notes = file.notes.0.iter().zip(1..).map(|(raw, number)| {
        let offset = raw.get().as_ptr().addr().wrapping_sub(text.as_ptr().addr());
        note(raw, number, locator.at(offset), &score.tempi)
    });
    let (notes, sources): (Vec<Note>, Vec<NoteSource>) =
        notes.collect::<Result<Vec<_>, _>>()?.into_iter().unzip();
    let read = ReadScore::of(score, Part::new(notes), sources)?;
    Ok(read.with_bars(BarsFrom::TwoSeconds))
}

/// What the JSON reader says, with its place before it and our form after it.
fn unreadable(text: &str, error: &serde_json::Error) -> ScoreFileError {
    const EXPECTED: &str =
        "JSON as in {\"notes\":[{\"onset_s\":0.5,\"duration_s\":0.2,\"midi\":60}]}";
    let said = error.to_string();
    let said = said.split(" at line ").next().unwrap_or_default().to_owned();
    let line = error.line().max(1);
    // The reader counts bytes, and 0 for the end of the line before.
    let in_line = text.lines().nth(line - 1).unwrap_or_default();
    let before = in_line.get(..error.column().saturating_sub(1)).unwrap_or(in_line);
    ScoreFileError::new(At::Text { line, column: before.chars().count() + 1 }, said, EXPECTED)
}

fn note(
    raw: &RawValue,
    number: usize,
    at: At,
    tempi: &TempoMap,
) -> Result<(Note, NoteSource), ScoreFileError> {
    let fields = Fields::read(raw, at)?;
    let onset_s = fields.seconds("onset_s")?;
    let pin = Pin {
        string: fields.optional("string", "a string number, 1 to 12", StringNumber::new)?,
        fret: fields.optional("fret", "a fret number, 0 to 36", Fret::new)?,
    };
    let duration_s = fields.seconds("duration_s")?;
    let pitch = fields.small("midi", "a MIDI number, 0 to 127", Pitch::from_midi)?;
    let note = recorded(tempi, onset_s, duration_s, NamedPitch::everyday(pitch));
    let note = note.ok_or_else(|| fields.fail("onset_s", SECONDS))?;
    // At most a day, which is checked of the whole: no bar is lost.
    let bar = (onset_s / ReadScore::BAR_S) as u64;
    Ok((note, NoteSource { pin, bar, origin: NoteOrigin::Listed { number, at } }))
}

/// The fields of one note.
struct Fields {
    at: At,
    fields: Map<String, Value>,
}

impl Fields {
    fn read(raw: &RawValue, at: At) -> Result<Fields, ScoreFileError> {
        let fields: Map<String, Value> = serde_json::from_str(raw.get())
            .map_err(|_| ScoreFileError::found(at, raw.get(), "a note: an object with numbers"))?;
        match fields.keys().find(|key| !KEYS.contains(&key.as_str())) {
            Some(key) => Err(ScoreFileError::found(at, key, format!("one of {}", KEYS.join(", ")))),
            None => Ok(Fields { at, fields }),
        }
    }

    fn fail(&self, key: &str, expected: &str) -> ScoreFileError {
        let expected = format!("{key}: {expected}");
        match self.fields.get(key) {
            Some(value) => ScoreFileError::found(self.at, &value.to_string(), expected),
            None => ScoreFileError::new(self.at, format!("{key} is missing"), expected),
        }
    }

    fn seconds(&self, key: &str) -> Result<f64, ScoreFileError> {
        let seconds = self.fields.get(key).and_then(Value::as_f64);
        let seconds = seconds.filter(|seconds| seconds.is_finite() && *seconds >= 0.0);
        seconds.ok_or_else(|| self.fail(key, SECONDS))
    }

    fn small<T>(
        &self,
        key: &str,
        expected: &str,
        checked: impl Fn(u8) -> Option<T>,
    ) -> Result<T, ScoreFileError> {
        let number = self.fields.get(key).and_then(Value::as_u64);
        let small = number.and_then(|number| u8::try_from(number).ok()).and_then(checked);
        small.ok_or_else(|| self.fail(key, expected))
    }

    fn optional<T>(
        &self,
        key: &str,
        expected: &str,
        checked: impl Fn(u8) -> Option<T>,
    ) -> Result<Option<T>, ScoreFileError> {
        match self.fields.get(key) {
            None | Some(Value::Null) => Ok(None),
            Some(_) => self.small(key, expected, checked).map(Some),
        }
    }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::Quarters;

    use super::*;

    fn refused(text: &str) -> String {
        read(text).unwrap_err().to_string()
    }

    #[test]
    fn notes_keep_their_order_and_their_pins() {
        let read = read(
            r#"{"title": "x", "notes": [
                {"onset_s": 3, "duration_s": 0, "midi": 127, "string": 12, "fret": 36},
                {"onset_s": 0.5, "duration_s": 0.25, "midi": 0, "string": null}
            ]}"#,
        )
        .unwrap();
        let [late, early] = [read.note(0).unwrap(), read.note(1).unwrap()];
        assert_eq!((late.time.onset_s(), late.sounding().midi()), (3.0, 127));
        assert_eq!((late.source.bar, late.source.pin.fret), (1, Fret::new(36)));
        assert_eq!(late.source.pin.string, StringNumber::new(12));
        assert_eq!((early.time.duration_s(), early.source.pin), (0.25, Pin::default()));
        assert_eq!(early.source.origin.to_string(), "note 2 (line 3, column 17)");
        assert!(!read.has_written_bars());
    }

    /// At 120 a quarter lasts half a second: 0.1 s are a fifth of one, nearly 0.3 s three fifths.
    #[test]
    fn seconds_are_kept_and_beats_are_counted() {
        let third = 1.0 / 3.0;
        let times = [(0.1 + 0.2, 0.1), (1.999_999_999, 1.5), (third, 2.0 * third)];
        let note = |(onset, duration): &(f64, f64)| {
            format!(r#"{{"onset_s":{onset:?},"duration_s":{duration:?},"midi":61}}"#)
        };
        let list = times.iter().map(note).collect::<Vec<_>>().join(",");
        let read = read(&format!(r#"{{"notes":[{list}]}}"#)).unwrap();
        let kept = read.notes().map(|note| (note.time.onset_s(), note.time.duration_s()));
        assert_eq!(kept.collect::<Vec<_>>(), times);
        let quarters = |(above, below)| Quarters::new(above, below).unwrap();
        let counted = [((3, 5), (1, 5)), ((4, 1), (3, 1)), ((2, 3), (4, 3))];
        for (note, (onset, duration)) in read.notes().zip(counted) {
            assert_eq!(note.note.onset(), quarters(onset));
            assert_eq!(note.note.duration(), quarters(duration));
            assert_eq!(note.note.pitch().to_string(), "D♭4");
        }
        // The bar is told by the seconds, the beat by what they nearly are.
        let second = read.note(1).unwrap();
        assert_eq!(second.source.bar, 0);
        assert_eq!(read.score().bars.at(second.note.onset()).unwrap().index, 1);
    }

    #[test]
    fn each_mistake_says_where_and_what_was_expected() {
        let with = |fields: &str| format!("{{\"notes\":[\n {{{fields}}}]}}");
        let full = "\"onset_s\":0,\"duration_s\":1,\"midi\":60";
        for (fields, words) in [
            ("\"onset_s\":-1,\"duration_s\":1,\"midi\":60", "found \"-1\"; expected onset_s: sec"),
            ("\"onset_s\":\"0\",\"duration_s\":1,\"midi\":60", "expected onset_s: seconds"),
            ("\"onset_s\":0,\"duration_s\":null,\"midi\":60", "expected duration_s: seconds"),
            (
                "\"onset_s\":0,\"duration_s\":1,\"midi\":128",
                "expected midi: a MIDI number, 0 to 127",
            ),
            ("\"onset_s\":0,\"duration_s\":1,\"midi\":60.5", "expected midi: a MIDI number"),
            ("\"onset_s\":0,\"duration_s\":1", "midi is missing; expected midi: a MIDI number"),
            (&format!("{full},\"string\":0"), "expected string: a string number, 1 to 12"),
            (&format!("{full},\"fret\":37"), "expected fret: a fret number, 0 to 36"),
            (&format!("{full},\"sting\":3"), "found \"sting\"; expected one of onset_s, "),
        ] {
            let said = refused(&with(fields));
            assert!(said.starts_with("line 2, column 2: ") && said.contains(words), "{said}");
        }
    }

    #[test]
    fn what_is_no_such_json_is_refused() {
        for text in [
            "{",
            "{}",
            "{\"notes\":3}",
            "{\"notes\":[3]}",
            "{\"notes\":[]}",
            "{\"notes\":[{\"onset_s\":NaN}]}",
            "{\"notes\":[{\"onset_s\":1e999,\"duration_s\":1,\"midi\":60}]}",
            "{\"notes\":[{\"onset_s\":1e300,\"duration_s\":1,\"midi\":60}]}",
        ] {
            assert!(refused(text).contains("expected"), "{text}");
        }
        let deep = format!("{{\"notes\":[{}]}}", "[".repeat(100_000));
        assert!(refused(&deep).contains("expected"));
    }

    #[test]
    fn a_note_too_many_is_refused() {
        let note = "{\"onset_s\":0,\"duration_s\":1,\"midi\":60}";
        let list = |count: usize| format!("{{\"notes\":[{}]}}", vec![note; count].join(","));
        assert_eq!(read(&list(MOST_NOTES)).unwrap().notes().len(), MOST_NOTES);
        assert!(refused(&list(MOST_NOTES + 1)).contains("at most 200000 notes"));
    }
}
