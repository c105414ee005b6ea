//! Reading a scale: `C Dorian`, its notes, or a root and degrees.

use std::borrow::Cow;
use std::str::FromStr;

use super::Scale;
use crate::{Degree, NoteName, ReadError, ScaleKind};

/// The longest text that is looked at, in characters.
const LONGEST: usize = 120;
/// How much of a wrong text is quoted.
const QUOTED: usize = 60;

impl FromStr for Scale {
    type Err = ReadError;

    /// Reads `C Dorian`, `C D Eb F G A Bb` or `C: 1 2 b3 4 5 6 b7`. Typed notes and degrees take
    /// the kind that sounds like them, where there is one.
    ///
    /// # Errors
    ///
    /// Where the text is none of these; the error points at the character.
    fn from_str(text: &str) -> Result<Scale, ReadError> {
        Scale::read_with(text, &[])
    }
}

impl Scale {
    /// Reads a scale as `parse` does, and knows kinds of one's own by name too.
    ///
    /// # Errors
    ///
    /// Where the text is none of `C Dorian`, `C D Eb F G A Bb` and `C: 1 2 b3 4 5 6 b7`; the error
    /// points at the character.
    pub fn read_with(text: &str, own: &[ScaleKind]) -> Result<Scale, ReadError> {
        if text.chars().count() > LONGEST {
            return Err(wrong(text, LONGEST + 1, format!("at most {LONGEST} characters")));
        }
        let trimmed = text.trim_end();
        let start = trimmed.len() - trimmed.trim_start().len();
        if let Some(kind) = ScaleKind::named(trimmed) {
            let expected = format!("a root first, as in C {}", kind.name());
            return Err(wrong(text, chars(text, start), expected));
        }
        let (root, rest) = NoteName::read_prefix(trimmed.trim_start())
            .map_err(|error| part(error, text, chars(text, start)))?;
        let at = trimmed.len() - rest.len();
        match rest.strip_prefix(':') {
            Some(degrees) => from_degrees(text, root, degrees, at + 1),
            None if begins_with_a_note(rest) => from_notes(text, start),
            None => from_kind(text, root, rest, at, own),
        }
    }
}

/// Is the first word a whole note name? `Dorian` is not, though it begins with one.
fn begins_with_a_note(rest: &str) -> bool {
    words(rest).next().is_some_and(|(_, word)| word.parse::<NoteName>().is_ok())
}

/// How many characters stand before byte `at`.
fn chars(text: &str, at: usize) -> usize {
    text.get(..at).map_or(0, |before| before.chars().count()) + 1
}

fn from_kind(
    text: &str,
    root: NoteName,
    name: &str,
    at: usize,
    own: &[ScaleKind],
) -> Result<Scale, ReadError> {
    let name_at = at + name.len() - name.trim_start().len();
    let of_own = own.iter().find(|kind| kind.is_called(name));
    match of_own.or_else(|| ScaleKind::named(name)) {
        Some(kind) if !name.trim().is_empty() => Ok(Scale::new(root, kind.clone())),
        _ => {
            let at = chars(text, name_at);
            Err(match ScaleKind::nearest(name) {
                Some(nearest) => wrong(text, at, "a kind of scale after the root")
                    .with_hint(format!("the nearest is {}", nearest.name())),
                None => wrong(text, at, "a kind of scale after the root, as in C Dorian"),
            })
        }
    }
}

fn from_degrees(text: &str, root: NoteName, list: &str, at: usize) -> Result<Scale, ReadError> {
    let mut degrees = Vec::new();
    for (offset, word) in words(list) {
        let here = chars(text, at + offset);
        let expected = "a degree, as in C: 1 2 b3 4 5 6 b7";
        let degree: Degree = word.parse().map_err(|_| wrong(text, here, expected))?;
        if degrees.iter().any(|known: &Degree| known.semitones() == degree.semitones()) {
            return Err(wrong(text, here, ONCE));
        }
        degrees.push(degree);
    }
    own(text, root, &degrees)
}

fn from_notes(text: &str, start: usize) -> Result<Scale, ReadError> {
    let list = text.get(start..).unwrap_or_default();
    let mut notes: Vec<NoteName> = Vec::new();
    for (offset, word) in words(list) {
        let here = chars(text, start + offset);
        let note: NoteName = word.parse().map_err(|error| part(error, text, here))?;
        if notes.iter().any(|known| known.pitch_class() == note.pitch_class()) {
            return Err(wrong(text, here, ONCE));
        }
        notes.push(note);
    }
    let Some(&root) = notes.first() else {
        return Err(wrong(text, 1, three_to_twelve(0)));
    };
    let over_root = |note: &NoteName| {
        let interval = root.interval_up_to(*note);
        let plain = Degree::new(interval.steps() + 1, 0)?.interval().semitones();
        Degree::new(interval.steps() + 1, interval.semitones() - plain)
    };
    let mut degrees: Vec<Degree> = notes.iter().filter_map(over_root).collect();
    degrees.sort_by_key(|degree| degree.semitones());
    own(text, root, &degrees)
}

fn own(text: &str, root: NoteName, degrees: &[Degree]) -> Result<Scale, ReadError> {
    let kind = ScaleKind::own("", degrees).ok_or_else(|| {
        wrong(text, chars(text, text.trim_end().len()), three_to_twelve(degrees.len()))
    })?;
    let known = ScaleKind::sounding(kind.set_over(crate::PitchClass::C)).cloned();
    Ok(Scale::new(root, known.unwrap_or(kind)))
}

const ONCE: &str = "a note that is not there yet";

fn three_to_twelve(count: usize) -> String {
    format!("three to twelve notes beginning with the root, not {count}")
}

/// A scale that is wrong from a character on.
fn wrong(text: &str, at: usize, expected: impl Into<Cow<'static, str>>) -> ReadError {
    ReadError::at_character("scale", text, at, expected).quoting(text, QUOTED)
}

/// A scale of which a note is wrong; the note begins at character `start`.
fn part(error: ReadError, text: &str, start: usize) -> ReadError {
    error.within("scale", text, start).quoting(text, QUOTED)
}

/// Words between spaces and commas, each with its byte offset.
fn words(list: &str) -> impl Iterator<Item = (usize, &str)> {
    list.split([' ', ',', '\t'])
        .filter(|word| !word.is_empty())
        .map(move |word| (word.as_ptr() as usize - list.as_ptr() as usize, word))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(text: &str) -> String {
        text.parse::<Scale>().unwrap().to_string()
    }

    #[test]
    fn names_notes_and_degrees_are_read() {
        for (text, expected) in [
            ("C Dorian", "C Dorian"),
            ("C dorian", "C Dorian"),
            ("Bb major", "B♭ Ionian"),
            ("F# LOCRIAN #2", "F♯ Locrian natural 2"),
            ("F# Locrian ♮2", "F♯ Locrian natural 2"),
            ("G Phrygian ♮6", "G Dorian ♭2"),
            ("C jazz minor", "C melodic minor"),
            ("C octatonic half-whole", "C half-whole diminished"),
            ("C diminished half-whole", "C half-whole diminished"),
            ("C D Eb F G A Bb", "C Dorian"),
            ("C,D,Eb,F,G,A,Bb", "C Dorian"),
            ("Eb F G A Bb C D", "E♭ Lydian"),
            ("C: 1 2 b3 4 5 6 b7", "C Dorian"),
            ("C: 1 b9 3 11 5 13 7", "C: 1 ♭9 3 11 5 13 7"),
            ("C E G", "C: 1 3 5"),
            ("D altered", "D altered"),
        ] {
            assert_eq!(name(text), expected, "{text}");
        }
    }

    #[test]
    fn mistakes_point_at_the_character_and_name_what_could_stand_there() {
        for (text, at, expected) in [
            ("", 1, "a note letter, A to G"),
            ("c dorian", 1, "a capital note letter, A to G"),
            ("melodic minor", 1, "a root first, as in C melodic minor"),
            ("Dorian", 1, "a root first, as in C Dorian"),
            ("super locrian", 1, "a root first, as in C altered"),
            ("C Lidian", 3, "a kind of scale after the root; the nearest is Lydian"),
            ("C Dorien", 3, "a kind of scale after the root; the nearest is Dorian"),
            ("C", 2, "a kind of scale after the root, as in C Dorian"),
            ("C D Q", 5, "a note letter, A to G"),
            ("C D D E", 5, "a note that is not there yet"),
            ("C: 1 b3 8", 9, "a degree, as in C: 1 2 b3 4 5 6 b7"),
            ("C: 1 b3 #2", 9, "a note that is not there yet"),
            ("C: 3 5 7", 9, "three to twelve notes beginning with the root, not 3"),
            ("C D", 4, "three to twelve notes beginning with the root, not 2"),
        ] {
            let error = text.parse::<Scale>().unwrap_err();
            assert_eq!(error.at(), at, "{text:?}: {error}");
            assert!(error.to_string().ends_with(expected), "{text:?}: {error}");
        }
    }

    #[test]
    fn a_root_that_would_need_triple_accidentals_is_respelled_and_said() {
        let scale: Scale = "Fb altered".parse().unwrap();
        assert_eq!(scale.to_string(), "E altered");
        assert_eq!(scale.respelled_from().unwrap().to_string(), "F♭");
    }
}
