//! The names of notes: a letter and its accidental.
//!
//! A name is spelling only: C♯ and D♭ are different names of one [`PitchClass`]. Names print with
//! ♭ and ♯ (`{}`), or in plain ASCII with b and # (`{:#}`); both are read back.

use std::fmt;
use std::str::FromStr;

use crate::accidental::{read_accidental, write_accidental};
use crate::{Interval, Letter, PitchClass, ReadError};

/// The name of a note: a letter with none, one or two flats or sharps.
///
/// # Example
///
/// ```
/// use fretloom_theory::NoteName;
/// let c_flat: NoteName = "Cb".parse().unwrap();
/// assert_eq!(c_flat.to_string(), "C♭");
/// assert_eq!(format!("{c_flat:#}"), "Cb");
/// assert_eq!(c_flat.pitch_class().number(), 11); // sounds as B
/// assert!("H".parse::<NoteName>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct NoteName {
    letter: Letter,
    /// Semitones up, −2 to 2: flats are negative.
    accidental: i8,
}

impl NoteName {
    /// `letter` raised by `sharps` semitones (lowered where negative); `None` beyond a double
    /// accidental.
    #[must_use]
    pub const fn new(letter: Letter, sharps: i8) -> Option<NoteName> {
        if sharps < -2 || sharps > 2 {
            return None;
        }
        Some(NoteName { letter, accidental: sharps })
    }

    /// The plain letter.
    #[must_use]
    pub const fn natural(letter: Letter) -> NoteName {
        NoteName { letter, accidental: 0 }
    }

    /// The name of `class` on `letter`; `None` where that would need a triple accidental.
    #[must_use]
    pub const fn on_letter(letter: Letter, class: PitchClass) -> Option<NoteName> {
        let up = PitchClass::new(letter.semitones_above_c() as i32).semitones_up_to(class) as i8;
        NoteName::new(letter, if up > 6 { up - 12 } else { up })
    }

    /// The letter without its accidental.
    #[must_use]
    pub const fn letter(self) -> Letter {
        self.letter
    }

    /// Semitones that the accidental raises the letter, −2 to 2.
    #[must_use]
    pub const fn accidental(self) -> i8 {
        self.accidental
    }

    /// What it sounds as, octave aside.
    #[must_use]
    pub const fn pitch_class(self) -> PitchClass {
        PitchClass::new(self.letter.semitones_above_c() as i32 + self.accidental as i32)
    }

    /// The name `interval` above; `None` where its letter would need a triple accidental.
    ///
    /// ```
    /// use fretloom_theory::{Interval, NoteName};
    /// let a_flat: NoteName = "Ab".parse().unwrap();
    /// assert_eq!(a_flat.up(Interval::new(2, 3)).unwrap().to_string(), "C♭");
    /// ```
    #[must_use]
    pub const fn up(self, interval: Interval) -> Option<NoteName> {
        let class = self.pitch_class().up(interval.semitones() as i32);
        NoteName::on_letter(self.letter.up(interval.steps()), class)
    }

    /// The interval from this name up to the next `upper`.
    pub(crate) const fn interval_up_to(self, upper: NoteName) -> Interval {
        let steps = self.letter.steps_up_to(upper.letter);
        let letters = self.letter.semitones_up(steps);
        Interval::new(steps, letters + upper.accidental - self.accidental)
    }

    /// Is it a name that players use unprompted: at most one accidental, and not C♭, F♭, E♯ or B♯?
    #[must_use]
    pub fn is_everyday(self) -> bool {
        let white_key_in_disguise = matches!(
            (self.letter, self.accidental),
            (Letter::C | Letter::F, -1) | (Letter::E | Letter::B, 1)
        );
        self.accidental.abs() <= 1 && !white_key_in_disguise
    }

    /// The everyday names of a class: one for a white key, two (the flat first) for a black one.
    pub fn everyday(class: PitchClass) -> impl Iterator<Item = NoteName> {
        NoteName::with_single_accidental(class).filter(|name| name.is_everyday())
    }

    /// The names of a class with one accidental at most: the plain letter, then flat, then sharp.
    pub(crate) fn with_single_accidental(class: PitchClass) -> impl Iterator<Item = NoteName> {
        [0, -1, 1].into_iter().flat_map(move |sharps| {
            Letter::ALL
                .into_iter()
                .filter_map(move |letter| NoteName::new(letter, sharps))
                .filter(move |name| name.pitch_class() == class)
        })
    }

    /// Reads a name from the beginning of `text` and gives it with what follows: the longest run
    /// of accidentals belongs to the name.
    ///
    /// # Errors
    ///
    /// Where `text` does not begin with a capital letter A to G, or carries more than two
    /// accidentals, or mixes sharps and flats.
    pub fn read_prefix(text: &str) -> Result<(NoteName, &str), ReadError> {
        let first = text.chars().next();
        let Some((first, letter)) = first.and_then(|c| Some((c, Letter::from_char(c)?))) else {
            return Err(no_letter(text, first));
        };
        let mut sharps = 0i8;
        let mut rest = &text[first.len_utf8()..];
        let mut at = 2;
        while let Some((step, after)) = read_accidental(rest) {
            let too_many = sharps.abs() + step.abs() > 2;
            if too_many || (sharps != 0 && (sharps > 0) != (step > 0)) {
                let expected = "at most two flats or two sharps";
                return Err(ReadError::at_character("note", text, at, expected));
            }
            sharps += step;
            rest = after;
            at += 1;
        }
        Ok((NoteName { letter, accidental: sharps }, rest))
    }
}

/// What is wrong with a text that begins with no letter of a note.
fn no_letter(text: &str, first: Option<char>) -> ReadError {
    let expected = match first {
        Some('a'..='g') => "a capital note letter, A to G",
        _ => "a note letter, A to G",
    };
    let error = ReadError::at_character("note", text, 1, expected);
    match first {
        Some('H' | 'h') => error.with_hint("H is written B here, and B is Bb"),
        _ => error,
    }
}

impl fmt::Display for NoteName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.letter.to_char())?;
        write_accidental(f, self.accidental)
    }
}

impl FromStr for NoteName {
    type Err = ReadError;

    /// Reads `C`, `Bb`, `F♯` and their like.
    ///
    /// # Errors
    ///
    /// Where the text is no letter A to G with at most two flats or sharps, or goes on after it.
    fn from_str(text: &str) -> Result<NoteName, ReadError> {
        let (name, rest) = NoteName::read_prefix(text)?;
        if rest.is_empty() {
            return Ok(name);
        }
        let at = text.chars().count() - rest.chars().count() + 1;
        Err(ReadError::at_character("note", text, at, "nothing more after the note"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_prints_and_reads_back_in_both_notations() {
        for letter in Letter::ALL {
            for sharps in -2..=2 {
                let name = NoteName::new(letter, sharps).unwrap();
                assert_eq!(name.to_string().parse(), Ok(name));
                assert_eq!(format!("{name:#}").parse(), Ok(name));
                assert_eq!(NoteName::on_letter(letter, name.pitch_class()), Some(name));
            }
        }
    }

    #[test]
    fn double_signs_of_one_character_are_read() {
        assert_eq!("F𝄪".parse::<NoteName>().unwrap(), "F##".parse().unwrap());
        assert_eq!("B𝄫".parse::<NoteName>().unwrap(), "Bbb".parse().unwrap());
    }

    #[test]
    fn mistakes_point_at_the_character() {
        for (text, at, advice) in [
            ("", 1, "a note letter, A to G"),
            ("c", 1, "a capital note letter, A to G"),
            ("H", 1, "a note letter, A to G; H is written B here, and B is Bb"),
            ("?", 1, "a note letter, A to G"),
            ("Cbbb", 4, "at most two flats or two sharps"),
            ("C#b", 3, "at most two flats or two sharps"),
            ("Es", 2, "nothing more after the note"),
        ] {
            let error = text.parse::<NoteName>().unwrap_err();
            assert_eq!((error.at(), error.advice().as_str()), (at, advice), "{text:?}");
        }
    }

    #[test]
    fn everyday_names_are_one_for_white_keys_and_two_for_black_ones() {
        for class in PitchClass::all() {
            let black = [1, 3, 6, 8, 10].contains(&class.number());
            assert_eq!(NoteName::everyday(class).count(), if black { 2 } else { 1 });
        }
    }
}
