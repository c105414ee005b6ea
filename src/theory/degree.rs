//! Degrees: what a note is over a root.
//!
//! The same distance goes by different names: three semitones are ♭3 in a minor chord and ♯9 on an
//! altered dominant. A degree is such a name; [`ChordScale`](crate::ChordScale) knows which one fits
//! a chord.

use std::fmt;
use std::str::FromStr;

use crate::accidental::write_accidental;
use crate::{Interval, PitchClass, ReadError};

/// A number counted from a root (1 to 7, or 9, 11, 13 for a tension) with flats or sharps.
///
/// Degrees are equal when they are *written* alike; [`semitones`](Self::semitones) tells which
/// sound alike.
///
/// # Example
///
/// ```
/// use fretloom_theory::Degree;
/// let sharp_nine: Degree = "#9".parse().unwrap();
/// let minor_third: Degree = "b3".parse().unwrap();
/// assert_ne!(sharp_nine, minor_third);
/// assert_eq!(sharp_nine.semitones(), minor_third.semitones());
/// assert_eq!(sharp_nine.to_string(), "♯9");
/// assert_eq!(format!("{sharp_nine:#}"), "#9");
/// assert!("8".parse::<Degree>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Degree {
    number: u8,
    alteration: i8,
}

impl Degree {
    /// The root.
    pub const ROOT: Degree = Degree { number: 1, alteration: 0 };
    pub(crate) const FLAT_SECOND: Degree = Degree { number: 2, alteration: -1 };
    pub(crate) const SECOND: Degree = Degree { number: 2, alteration: 0 };
    pub(crate) const MINOR_THIRD: Degree = Degree { number: 3, alteration: -1 };
    pub(crate) const MAJOR_THIRD: Degree = Degree { number: 3, alteration: 0 };
    pub(crate) const FOURTH: Degree = Degree { number: 4, alteration: 0 };
    pub(crate) const FLAT_FIFTH: Degree = Degree { number: 5, alteration: -1 };
    pub(crate) const FIFTH: Degree = Degree { number: 5, alteration: 0 };
    pub(crate) const SHARP_FIFTH: Degree = Degree { number: 5, alteration: 1 };
    pub(crate) const FLAT_SIXTH: Degree = Degree { number: 6, alteration: -1 };
    pub(crate) const SIXTH: Degree = Degree { number: 6, alteration: 0 };
    pub(crate) const DIMINISHED_SEVENTH: Degree = Degree { number: 7, alteration: -2 };
    pub(crate) const MINOR_SEVENTH: Degree = Degree { number: 7, alteration: -1 };
    pub(crate) const MAJOR_SEVENTH: Degree = Degree { number: 7, alteration: 0 };
    pub(crate) const FLAT_NINTH: Degree = Degree { number: 9, alteration: -1 };
    pub(crate) const NINTH: Degree = Degree { number: 9, alteration: 0 };
    pub(crate) const SHARP_NINTH: Degree = Degree { number: 9, alteration: 1 };
    pub(crate) const ELEVENTH: Degree = Degree { number: 11, alteration: 0 };
    pub(crate) const SHARP_ELEVENTH: Degree = Degree { number: 11, alteration: 1 };
    pub(crate) const FLAT_THIRTEENTH: Degree = Degree { number: 13, alteration: -1 };
    pub(crate) const THIRTEENTH: Degree = Degree { number: 13, alteration: 0 };

    /// The degree `number` raised by `sharps` semitones; `None` where the number is none of 1–7,
    /// 9, 11 and 13 or the alteration exceeds two.
    #[must_use]
    pub const fn new(number: u8, sharps: i8) -> Option<Degree> {
        let known = matches!(number, 1..=7 | 9 | 11 | 13);
        if known && sharps >= -2 && sharps <= 2 {
            Some(Degree { number, alteration: sharps })
        } else {
            None
        }
    }

    /// The number: 1 to 7, 9, 11 or 13.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.number
    }

    /// Semitones that its flats and sharps raise it.
    #[must_use]
    pub const fn alteration(self) -> i8 {
        self.alteration
    }

    /// Letters and semitones above the root, within one octave: a 9 lies where a 2 does.
    #[must_use]
    pub const fn interval(self) -> Interval {
        let steps = (self.number - 1) % 7;
        const MAJOR: [i8; 7] = [0, 2, 4, 5, 7, 9, 11];
        Interval::new(steps, MAJOR[steps as usize] + self.alteration)
    }

    /// Semitones above the root, 0 to 11.
    #[must_use]
    pub const fn semitones(self) -> u8 {
        self.interval().semitones().rem_euclid(12) as u8
    }

    /// What it sounds as over `root`.
    #[must_use]
    pub const fn over(self, root: PitchClass) -> PitchClass {
        root.up(self.semitones() as i32)
    }

    /// Reads one degree out of the ASCII bytes `from..to`. At compile time there is nothing else to
    /// read a table with.
    pub(crate) const fn from_ascii(bytes: &[u8], from: usize, to: usize) -> Option<Degree> {
        let mut at = from;
        let mut alteration = 0;
        while at < to && (bytes[at] == b'b' || bytes[at] == b'#') {
            alteration += if bytes[at] == b'b' { -1 } else { 1 };
            at += 1;
        }
        let mut number = 0;
        if at == to || to - at > 2 {
            return None;
        }
        while at < to {
            if !bytes[at].is_ascii_digit() {
                return None;
            }
            number = number * 10 + (bytes[at] - b'0');
            at += 1;
        }
        Degree::new(number, alteration)
    }
}

impl fmt::Display for Degree {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_accidental(f, self.alteration)?;
        write!(f, "{}", self.number)
    }
}

impl FromStr for Degree {
    type Err = ReadError;

    /// Reads `b3`, `♯11` and their like.
    ///
    /// # Errors
    ///
    /// Where the number is none of 1 to 7, 9, 11 and 13, or has more than two flats or sharps.
    fn from_str(text: &str) -> Result<Degree, ReadError> {
        let ascii = text.replace('♭', "b").replace('♯', "#");
        Degree::from_ascii(ascii.as_bytes(), 0, ascii.len()).ok_or_else(|| {
            ReadError::whole(
                "degree",
                text,
                "a number 1 to 7, 9, 11 or 13 with at most two flats or sharps before it, as in \
                 b3 or #11",
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_degree_prints_and_reads_back_in_both_notations() {
        for number in (1..=7).chain([9, 11, 13]) {
            for sharps in -2..=2 {
                let degree = Degree::new(number, sharps).unwrap();
                assert_eq!(degree.to_string().parse(), Ok(degree));
                assert_eq!(format!("{degree:#}").parse(), Ok(degree));
            }
        }
    }

    #[test]
    fn what_is_no_degree_is_refused() {
        for text in ["", "b", "0", "8", "10", "12", "bbb3", "3b", "1000", "♯", "99999999999"] {
            assert!(text.parse::<Degree>().is_err(), "{text:?}");
        }
    }

    #[test]
    fn a_tension_lies_where_its_second_fourth_or_sixth_does() {
        for (tension, plain) in [("b9", "b2"), ("#11", "#4"), ("b13", "b6"), ("13", "bb7")] {
            let (tension, plain): (Degree, Degree) =
                (tension.parse().unwrap(), plain.parse().unwrap());
            assert_eq!(tension.semitones(), plain.semitones());
        }
    }
}
