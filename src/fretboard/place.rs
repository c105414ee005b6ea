//! Strings by number, and places on the neck.

use std::fmt;

use crate::Fret;

/// A string by its number, 1 to 12; 1 is the string nearest the floor, as players count.
///
/// The order of these numbers is the order across the neck and nothing else: on a re-entrant
/// instrument a higher number does not sound lower.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::StringNumber;
/// assert_eq!(StringNumber::new(6).unwrap().number(), 6);
/// assert_eq!(StringNumber::new(0), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct StringNumber(u8);

impl StringNumber {
    /// The string nearest the floor.
    pub const FIRST: StringNumber = StringNumber(1);
    /// The highest number that any instrument here may have.
    pub const HIGHEST: StringNumber = StringNumber(12);

    /// The string with this number; `None` for 0 and above 12.
    #[must_use]
    pub const fn new(number: u8) -> Option<StringNumber> {
        if number == 0 || number > StringNumber::HIGHEST.0 {
            None
        } else {
            Some(StringNumber(number))
        }
    }

    /// Its number, 1 to 12.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// The strings of an instrument with `count` of them, from 1 up; at most twelve.
    pub(crate) fn up_to(count: usize) -> impl DoubleEndedIterator<Item = StringNumber> {
        let last = u8::try_from(count).map_or(StringNumber::HIGHEST.0, |n| n.min(12));
        (1..=last).map(StringNumber)
    }
}

impl fmt::Display for StringNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A place on the neck: a string and a fret.
///
/// A place is not a pitch: one pitch may have five places. [`Neck`](crate::Neck) goes from one to
/// the other, and knows which places there are.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Place {
    /// Which string.
    pub string: StringNumber,
    /// Which fret.
    pub fret: Fret,
}

impl Place {
    /// The place on `string` at `fret`.
    #[must_use]
    pub const fn new(string: StringNumber, fret: Fret) -> Place {
        Place { string, fret }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strings_are_counted_from_one_to_twelve() {
        for (number, exists) in [(0, false), (1, true), (12, true), (13, false)] {
            assert_eq!(StringNumber::new(number).is_some(), exists, "{number}");
        }
        let six: Vec<u8> = StringNumber::up_to(6).map(StringNumber::number).collect();
        assert_eq!(six, [1, 2, 3, 4, 5, 6]);
        assert_eq!(StringNumber::up_to(99).count(), 12);
    }
}
