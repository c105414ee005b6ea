//! Frets and ranges of frets.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

use crate::hyphenated::{hyphenated, number};

/// A fret of the neck, counted from the nut: 0 is the open string, 36 the highest anywhere.
///
/// The number names the space *before* the wire, as players count. On a string that starts higher
/// up the neck (a banjo's fifth) 0 is still that string open, and the other numbers are still
/// those of the neck.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::Fret;
/// assert_eq!(Fret::new(12).unwrap().number(), 12);
/// assert!(Fret::OPEN.is_open());
/// assert_eq!(Fret::new(37), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Fret(u8);

impl Fret {
    /// The open string.
    pub const OPEN: Fret = Fret(0);
    /// The highest fret that any neck here may have.
    pub const HIGHEST: Fret = Fret(36);

    /// The fret with this number; `None` above 36.
    #[must_use]
    pub const fn new(number: u8) -> Option<Fret> {
        if number > Fret::HIGHEST.0 { None } else { Some(Fret(number)) }
    }

    /// Its number, 0 to 36.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// Is it the open string?
    #[must_use]
    pub const fn is_open(self) -> bool {
        self.0 == 0
    }

    /// Every fret from the open string to `self`.
    pub(crate) fn up_to_here(self) -> impl Iterator<Item = Fret> {
        (0..=self.0).map(Fret)
    }
}

impl fmt::Display for Fret {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A stretch of the neck from one fret to another, both included; written `1-15`.
///
/// Open strings are fret 0: a range that does not begin there leaves them out.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, FretRange};
/// let range: FretRange = "5-8".parse().unwrap();
/// assert!(range.contains(Fret::new(8).unwrap()));
/// assert!(!range.contains(Fret::OPEN));
/// assert_eq!("8-5".parse::<FretRange>().unwrap_err().at(), 3);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct FretRange {
    first: Fret,
    last: Fret,
}

impl FretRange {
    /// From the open string to the highest fret of any neck.
    pub const WHOLE_NECK: FretRange = FretRange { first: Fret::OPEN, last: Fret::HIGHEST };

    /// From `first` to `last`; `None` where `last` lies below `first`.
    #[must_use]
    pub const fn new(first: Fret, last: Fret) -> Option<FretRange> {
        if last.0 < first.0 { None } else { Some(FretRange { first, last }) }
    }

    /// Its lowest fret.
    #[must_use]
    pub const fn first(self) -> Fret {
        self.first
    }

    /// Its highest fret.
    #[must_use]
    pub const fn last(self) -> Fret {
        self.last
    }

    /// Does `fret` lie in it?
    #[must_use]
    pub const fn contains(self, fret: Fret) -> bool {
        self.first.0 <= fret.0 && fret.0 <= self.last.0
    }
}

impl fmt::Display for FretRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.first, self.last)
    }
}

impl FromStr for FretRange {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<FretRange, ReadError> {
        let fail =
            |at, expected: &'static str| ReadError::at_character("fret range", text, at, expected);
        let end = text.chars().count() + 1;
        let mut parts = hyphenated(text);
        let mut read_fret = || {
            let part =
                parts.next().ok_or_else(|| fail(end, "a hyphen and a last fret, as in 1-15"))?;
            let read = number(part).and_then(|number| Fret::new(number).ok_or(part.0));
            let fret = read.map_err(|at| fail(at, "a fret number, 0 to 36"))?;
            Ok((fret, part.0))
        };
        let (first, _) = read_fret()?;
        let (last, at) = read_fret()?;
        if let Some((at, _)) = parts.next() {
            return Err(fail(at, "nothing more after the last fret"));
        }
        FretRange::new(first, last).ok_or_else(|| fail(at, "a fret not below the first"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn every_range_prints_and_reads_back() {
        for first in Fret::HIGHEST.up_to_here() {
            for last in Fret::HIGHEST.up_to_here().skip(usize::from(first.number())) {
                let range = FretRange::new(first, last).unwrap();
                assert_eq!(range.to_string().parse(), Ok(range));
            }
        }
    }

    #[test]
    fn mistakes_point_at_the_character() {
        for (text, at, expected) in [
            ("", 1, "a fret number, 0 to 36"),
            ("5", 2, "a hyphen and a last fret, as in 1-15"),
            ("5-", 3, "a fret number, 0 to 36"),
            ("5-37", 3, "a fret number, 0 to 36"),
            ("5-1x", 4, "a fret number, 0 to 36"),
            ("+5-7", 1, "a fret number, 0 to 36"),
            ("9-7", 3, "a fret not below the first"),
            ("1-2-3", 5, "nothing more after the last fret"),
        ] {
            let error = text.parse::<FretRange>().unwrap_err();
            assert_eq!((error.at(), error.expected()), (at, expected), "{text:?}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in any::<String>()) {
            let _ = text.parse::<FretRange>();
        }
    }
}
