//! Reading a scale: `C Dorian`, its notes, or a root and degrees.

use std::fmt;
use std::str::FromStr;

use super::{Scale, ScaleKind};
use crate::{Degree, NoteError, NoteName};

/// The longest text that is looked at.
const LONGEST: usize = 120;

impl FromStr for Scale {
    type Err = ScaleError;

    /// Reads `C Dorian`, `C D Eb F G A Bb` or `C: 1 2 b3 4 5 6 b7`. Typed notes and degrees take
    /// the kind that sounds like them, where there is one.
    ///
    /// # Errors
    ///
    /// Where the text is none of these; the error points at the character.
    fn from_str(text: &str) -> Result<Scale, ScaleError> {
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
    pub fn read_with(text: &str, own: &[ScaleKind]) -> Result<Scale, ScaleError> {
        if text.chars().count() > LONGEST {
            return Err(ScaleError::new(text, LONGEST + 1, ScaleProblem::TooLong));
        }
        let trimmed = text.trim_end();
        let start = trimmed.len() - trimmed.trim_start().len();
        if let Some(kind) = ScaleKind::named(trimmed) {
            let kind = kind.name().to_owned();
            return Err(ScaleError::new(text, chars(text, start), ScaleProblem::NoRoot { kind }));
        }
        let (root, rest) = NoteName::read_prefix(trimmed.trim_start()).map_err(|error| {
            ScaleError::new(text, chars(text, start) + error.at() - 1, ScaleProblem::Note(error))
        })?;
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
) -> Result<Scale, ScaleError> {
    let name_at = at + name.len() - name.trim_start().len();
    let of_own = own.iter().find(|kind| kind.is_called(name));
    match of_own.or_else(|| ScaleKind::named(name)) {
        Some(kind) if !name.trim().is_empty() => Ok(Scale::new(root, kind.clone())),
        _ => {
            let nearest = ScaleKind::nearest(name).map(|kind| kind.name().to_owned());
            let problem = ScaleProblem::UnknownKind { nearest };
            Err(ScaleError::new(text, chars(text, name_at), problem))
        }
    }
}

fn from_degrees(text: &str, root: NoteName, list: &str, at: usize) -> Result<Scale, ScaleError> {
    let mut degrees = Vec::new();
    for (offset, word) in words(list) {
        let here = chars(text, at + offset);
        let degree: Degree =
            word.parse().map_err(|_| ScaleError::new(text, here, ScaleProblem::Degree))?;
        if degrees.iter().any(|known: &Degree| known.semitones() == degree.semitones()) {
            return Err(ScaleError::new(text, here, ScaleProblem::Twice));
        }
        degrees.push(degree);
    }
    own(text, root, &degrees)
}

fn from_notes(text: &str, start: usize) -> Result<Scale, ScaleError> {
    let list = text.get(start..).unwrap_or_default();
    let mut notes: Vec<NoteName> = Vec::new();
    for (offset, word) in words(list) {
        let here = chars(text, start + offset);
        let note: NoteName = word.parse().map_err(|error: NoteError| {
            ScaleError::new(text, here + error.at() - 1, ScaleProblem::Note(error))
        })?;
        if notes.iter().any(|known| known.pitch_class() == note.pitch_class()) {
            return Err(ScaleError::new(text, here, ScaleProblem::Twice));
        }
        notes.push(note);
    }
    let Some(&root) = notes.first() else {
        return Err(ScaleError::new(text, 1, ScaleProblem::Count(0)));
    };
    let over_root = |note: &NoteName| {
        let interval = crate::Interval::between(root, *note);
        let plain = Degree::new(interval.steps() + 1, 0)?.interval().semitones();
        Degree::new(interval.steps() + 1, interval.semitones() - plain)
    };
    let mut degrees: Vec<Degree> = notes.iter().filter_map(over_root).collect();
    degrees.sort_by_key(|degree| degree.semitones());
    own(text, root, &degrees)
}

fn own(text: &str, root: NoteName, degrees: &[Degree]) -> Result<Scale, ScaleError> {
    let kind = ScaleKind::own("", degrees).ok_or_else(|| {
        ScaleError::new(
            text,
            chars(text, text.trim_end().len()),
            ScaleProblem::Count(degrees.len()),
        )
    })?;
    let known = ScaleKind::sounding(kind.set_over(crate::PitchClass::C)).cloned();
    Ok(Scale::new(root, known.unwrap_or(kind)))
}

/// Words between spaces and commas, each with its byte offset.
fn words(list: &str) -> impl Iterator<Item = (usize, &str)> {
    list.split([' ', ',', '\t'])
        .filter(|word| !word.is_empty())
        .map(move |word| (word.as_ptr() as usize - list.as_ptr() as usize, word))
}

/// Why a scale could not be read, and where.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ScaleError {
    text: String,
    at: usize,
    problem: ScaleProblem,
}

/// What is wrong with a scale's text.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum ScaleProblem {
    /// A note name cannot be read.
    Note(NoteError),
    /// A kind of scale without its root.
    NoRoot {
        /// The kind.
        kind: String,
    },
    /// The name after the root is no kind of scale.
    UnknownKind {
        /// The kind with the nearest name.
        nearest: Option<String>,
    },
    /// A degree cannot be read.
    Degree,
    /// A note stands twice.
    Twice,
    /// There are not three to twelve notes, or degrees do not begin on 1.
    Count(usize),
    /// The text is longer than any scale.
    TooLong,
}

impl ScaleError {
    fn new(text: &str, at: usize, problem: ScaleProblem) -> Self {
        ScaleError { text: text.chars().take(60).collect(), at, problem }
    }

    /// Which character, counted from 1.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// What is wrong.
    #[must_use]
    pub fn problem(&self) -> &ScaleProblem {
        &self.problem
    }
}

impl fmt::Display for ScaleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cannot read the scale \"{}\" at character {}: expected ", self.text, self.at)?;
        match &self.problem {
            ScaleProblem::Note(error) => f.write_str(error.expected()),
            ScaleProblem::NoRoot { kind } => write!(f, "a root first, as in C {kind}"),
            ScaleProblem::UnknownKind { nearest: Some(name) } => {
                write!(f, "a kind of scale after the root; the nearest is {name}")
            }
            ScaleProblem::UnknownKind { nearest: None } => {
                f.write_str("a kind of scale after the root, as in C Dorian")
            }
            ScaleProblem::Degree => f.write_str("a degree, as in C: 1 2 b3 4 5 6 b7"),
            ScaleProblem::Twice => f.write_str("a note that is not there yet"),
            ScaleProblem::Count(count) => {
                write!(f, "three to twelve notes beginning with the root, not {count}")
            }
            ScaleProblem::TooLong => write!(f, "at most {LONGEST} characters"),
        }
    }
}

impl std::error::Error for ScaleError {}

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
