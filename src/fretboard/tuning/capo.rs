//! Capos.

use std::fmt;

use fretloom_theory::ReadError;

use crate::hyphenated::number;
use crate::{Fret, StringNumber, StringSet};

/// A capo: a clamp that holds strings down at a fret, all of them or some.
///
/// Frets keep their numbers. What lies behind the capo is no place any more, and a string that it
/// holds sounds open from there. At fret 0 there is no capo.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Capo, Fret, Neck, Place, StringNumber, Tuning};
/// let tuning = Tuning::read("EADGBE").unwrap();
/// let capo = Capo::read("2", Some("5-4-3")).unwrap();
/// let neck = Neck::new(tuning.with_capo(capo).unwrap());
/// let open = |string| Place::new(StringNumber::new(string).unwrap(), Fret::OPEN);
/// assert_eq!(neck.pitch_at(open(5)).unwrap().midi(), 47); // B2
/// assert_eq!(neck.pitch_at(open(6)).unwrap().midi(), 40); // E2, as ever
/// assert_eq!(neck.fret_number(open(5)).number(), 2);
/// assert_eq!(capo.to_string(), "capo at 2 on 5-4-3");
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Capo {
    fret: Fret,
    /// The strings it holds; `None` for all.
    strings: Option<StringSet>,
}

impl Capo {
    /// No capo.
    pub const NONE: Capo = Capo { fret: Fret::OPEN, strings: None };

    /// A capo across all strings at `fret`.
    #[must_use]
    pub const fn full(fret: Fret) -> Capo {
        Capo { fret, strings: None }
    }

    /// A capo at `fret` that holds `strings` only.
    #[must_use]
    pub const fn partial(fret: Fret, strings: StringSet) -> Capo {
        Capo { fret, strings: Some(strings) }
    }

    /// Reads a fret as typed, and the strings of a partial capo, as in `5-4-3`.
    ///
    /// # Errors
    ///
    /// Where the fret is no number from 0 to 36, or the strings are no set.
    pub fn read(fret: &str, strings: Option<&str>) -> Result<Capo, ReadError> {
        let read = number((1, fret)).and_then(|number| Fret::new(number).ok_or(1));
        let wrong = |at| ReadError::at_character("capo", fret, at, "a fret number, 0 to 36");
        let fret = read.map_err(wrong)?;
        Ok(Capo { fret, strings: strings.map(str::parse).transpose()? })
    }

    /// Where it lies; 0 for no capo.
    #[must_use]
    pub const fn fret(self) -> Fret {
        self.fret
    }

    /// The strings that it holds; `None` for all.
    #[must_use]
    pub const fn strings(self) -> Option<StringSet> {
        self.strings
    }

    /// Is there none?
    #[must_use]
    pub const fn is_none(self) -> bool {
        self.fret.is_open()
    }

    /// Does it lie on `string`?
    #[must_use]
    pub fn covers(self, string: StringNumber) -> bool {
        !self.is_none() && self.strings.is_none_or(|strings| strings.contains(string))
    }
}

impl fmt::Display for Capo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.strings {
            _ if self.is_none() => f.write_str("no capo"),
            None => write!(f, "capo at {}", self.fret),
            Some(strings) => write!(f, "capo at {} on {strings}", self.fret),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_capo_is_read_as_typed() {
        let capo = Capo::read("3", None).unwrap();
        assert_eq!((capo.fret().number(), capo.strings()), (3, None));
        assert_eq!(capo.to_string(), "capo at 3");
        assert!(Capo::read("0", None).unwrap().is_none());
        assert_eq!(Capo::NONE.to_string(), "no capo");
        let message = Capo::read("2x", None).unwrap_err().to_string();
        let expected = "expected a fret number, 0 to 36";
        assert_eq!(message, format!("cannot read the capo \"2x\" at character 2: {expected}"));
    }

    #[test]
    fn mistakes_point_at_the_character() {
        for (fret, strings, at, expected) in [
            ("", None, 1, "a fret number, 0 to 36"),
            ("37", None, 1, "a fret number, 0 to 36"),
            ("-2", None, 1, "a fret number, 0 to 36"),
            ("2", Some("5-x"), 3, "a string number, 1 to 12"),
        ] {
            let error = Capo::read(fret, strings).unwrap_err();
            assert_eq!((error.at(), error.expected()), (at, expected), "{fret:?} {strings:?}");
        }
    }

    #[test]
    fn it_covers_its_strings_only() {
        let covered = |capo: Capo| -> Vec<u8> {
            let strings = StringNumber::up_to(6).filter(|string| capo.covers(*string));
            strings.map(StringNumber::number).collect()
        };
        let fret = Fret::new(2).unwrap();
        assert_eq!(covered(Capo::full(fret)), [1, 2, 3, 4, 5, 6]);
        assert_eq!(covered(Capo::partial(fret, "5-4-3".parse().unwrap())), [3, 4, 5]);
        assert_eq!(covered(Capo::NONE), [0; 0]);
    }
}
