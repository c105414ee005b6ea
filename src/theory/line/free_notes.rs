//! Notes that belong to no pair.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use crate::time::Quarters;
use crate::{NamedPitch, Pitch, ReadError, Rhythm, ValueKind};

/// A free note of a phrase: an approach, a held note, a note of a chord stab or a double stop.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct FreeNote {
    /// How long after the beginning of the phrase it begins.
    pub after: Quarters,
    /// How long it is.
    pub duration: Quarters,
    /// What sounds.
    pub pitch: Pitch,
    /// Is it accented?
    pub accent: bool,
}

/// Free notes, written one after another: each a pitch and after a colon its value as in a
/// [`Rhythm`]. Without a value it is as long as the one before, at first an eighth. `+` joins what
/// sounds together, `-` is a rest, `>` accents what follows.
///
/// ```
/// use fretloom_theory::{FreeNotes, Quarters};
/// let notes: FreeNotes = "B3:8 D4 -:4 >F3+A3:2".parse().unwrap();
/// assert_eq!(notes.notes().len(), 4);
/// assert_eq!(notes.notes()[3].after, Quarters::whole(2));
/// let error = "B3:8 H4".parse::<FreeNotes>().unwrap_err();
/// assert_eq!(error.at(), 6);
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct FreeNotes {
    notes: Vec<FreeNote>,
}

impl FreeNotes {
    /// The most that are read.
    pub const LONGEST: usize = 256;

    /// In order of time, what sounds together from the lowest up; at least one.
    #[must_use]
    pub fn notes(&self) -> &[FreeNote] {
        &self.notes
    }
}

impl FreeNotes {
    /// The same notes so many semitones higher; `None` where one would be none.
    #[must_use]
    pub fn up(&self, semitones: i32) -> Option<FreeNotes> {
        let moved = |note: &FreeNote| Some(FreeNote { pitch: note.pitch.up(semitones)?, ..*note });
        Some(FreeNotes { notes: self.notes.iter().map(moved).collect::<Option<_>>()? })
    }
}

/// The longest text that is looked at, in characters.
const LONGEST_TEXT: usize = 4_000;

const WORD: &str = "a note as in B3 or B3:8, notes together as in F3+A3:4, or a rest as in -:4";

impl FromStr for FreeNotes {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where a word is no note and no rest, or no note is among them; the error points at it.
    fn from_str(text: &str) -> Result<FreeNotes, ReadError> {
        let wrong = |at: usize, expected: Cow<'static, str>| {
            ReadError::at_character("free notes", text, at, expected)
        };
        if text.chars().count() > LONGEST_TEXT {
            let most = format!("at most {LONGEST_TEXT} characters");
            return Err(wrong(LONGEST_TEXT + 1, most.into()));
        }
        let (mut now, mut length) = (Quarters::ZERO, Quarters::EIGHTH);
        let mut notes = Vec::new();
        for (at, word) in words(text) {
            let (sounds, value) = word.split_once(':').unwrap_or((word, ""));
            if !value.is_empty() {
                length = read_length(value).ok_or_else(|| wrong(at, WORD.into()))?;
            }
            let accent = sounds.starts_with('>');
            let sounds = sounds.strip_prefix('>').unwrap_or(sounds);
            if sounds != "-" {
                let mut together = read_pitches(sounds).ok_or_else(|| wrong(at, WORD.into()))?;
                together.sort_unstable();
                let note = |pitch| FreeNote { after: now, duration: length, pitch, accent };
                notes.extend(together.into_iter().map(note));
            }
            if notes.len() > FreeNotes::LONGEST {
                return Err(wrong(at, format!("at most {} notes", FreeNotes::LONGEST).into()));
            }
            let sum = now.checked_add(length);
            now = sum.ok_or_else(|| wrong(at, "lengths that add up exactly".into()))?;
        }
        if notes.is_empty() {
            return Err(wrong(
                text.chars().count() + 1,
                format!("at least one note: {WORD}").into(),
            ));
        }
        Ok(FreeNotes { notes })
    }
}

/// The words of a text, each with the character where it begins, counted from 1.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.split_whitespace().map(|word| {
        let before = word.as_ptr() as usize - text.as_ptr() as usize;
        (text.get(..before).map_or(0, |before| before.chars().count()) + 1, word)
    })
}

/// One value, which is no rest and has no accent of its own.
fn read_length(value: &str) -> Option<Quarters> {
    let rhythm: Rhythm = value.parse().ok()?;
    match rhythm.cycle() {
        [only] if only.kind == ValueKind::Note && rhythm.pick_up().is_empty() => Some(only.length),
        _ => None,
    }
}

/// `F3+A3`: different pitches.
fn read_pitches(sounds: &str) -> Option<Vec<Pitch>> {
    let mut pitches: Vec<Pitch> = Vec::new();
    for name in sounds.split('+') {
        let pitch = name.parse::<NamedPitch>().ok()?.pitch();
        (!pitches.contains(&pitch)).then(|| pitches.push(pitch))?;
    }
    Some(pitches)
}

impl fmt::Display for FreeNote {
    /// `>B♭3`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(if self.accent { ">" } else { "" })?;
        NamedPitch::everyday(self.pitch).fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wrong_word_is_pointed_at() {
        for (text, at) in [
            ("", 1),
            ("-:4 -", 6),
            ("B3:7", 1),
            ("B3 B", 4),
            ("B3:-8", 1),
            ("B3:8|4", 1),
            ("  ♭", 3),
            ("B3+B3", 1),
            ("B3+", 1),
            ("B3 >-", 4),
        ] {
            let error = text.parse::<FreeNotes>();
            match (text, error) {
                // An accent on a rest says nothing and is a rest.
                ("B3 >-", read) => assert!(read.is_ok()),
                (_, read) => assert_eq!(read.unwrap_err().at(), at, "{text}"),
            }
        }
        let long = "C4 ".repeat(5_000);
        assert!(long.parse::<FreeNotes>().unwrap_err().to_string().len() < 200);
    }

    /// By hand.
    #[test]
    fn notes_come_one_after_another() {
        let read: FreeNotes = "E4:4. Eb4:8 A3+F3".parse().unwrap();
        let told: Vec<(String, String, u8)> = read
            .notes()
            .iter()
            .map(|note| (note.after.to_string(), note.duration.to_string(), note.pitch.midi()))
            .collect();
        let expected = [("0", "3/2", 64), ("3/2", "1/2", 63), ("2", "1/2", 53), ("2", "1/2", 57)];
        assert!(told.iter().map(|(a, d, m)| (a.as_str(), d.as_str(), *m)).eq(expected), "{told:?}");
    }
}
