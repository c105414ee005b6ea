//! Sets of strings: where on the instrument something is played.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

use crate::StringNumber;
use crate::hyphenated::{hyphenated, number};

/// One or more strings, written from the highest number to the lowest: `4-3-2`.
///
/// A set knows numbers only. Which of its strings sounds lowest is a matter of the tuning, and on
/// a re-entrant instrument not the first one written.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::StringSet;
/// let set: StringSet = "2-3-4".parse().unwrap();
/// assert_eq!(set.to_string(), "4-3-2");
/// assert_eq!("4-4-2".parse::<StringSet>().unwrap_err().at(), 3);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct StringSet {
    /// Bit 0 is string 1; at least one bit is set.
    bits: u16,
}

impl StringSet {
    /// The set of one string.
    #[must_use]
    pub const fn only(string: StringNumber) -> StringSet {
        StringSet { bits: 1 << (string.number() - 1) }
    }

    /// The set of these strings; `None` where there are none.
    #[must_use]
    pub fn of(strings: impl IntoIterator<Item = StringNumber>) -> Option<StringSet> {
        let mut strings = strings.into_iter();
        let first = StringSet::only(strings.next()?);
        Some(strings.fold(first, StringSet::with))
    }

    /// This set and `string`.
    #[must_use]
    pub const fn with(self, string: StringNumber) -> StringSet {
        StringSet { bits: self.bits | StringSet::only(string).bits }
    }

    /// Is `string` in it?
    #[must_use]
    pub const fn contains(self, string: StringNumber) -> bool {
        self.bits & StringSet::only(string).bits != 0
    }

    /// How many strings, 1 to 12.
    #[must_use]
    #[allow(clippy::len_without_is_empty, reason = "no set is empty")]
    pub const fn len(self) -> usize {
        self.bits.count_ones() as usize
    }

    /// Does an instrument of `string_count` strings have them all?
    #[must_use]
    pub const fn is_on(self, string_count: usize) -> bool {
        (16 - self.bits.leading_zeros()) as usize <= string_count
    }

    /// Do its strings lie side by side, none skipped?
    #[must_use]
    pub const fn is_unbroken(self) -> bool {
        let from_the_lowest = self.bits >> self.bits.trailing_zeros();
        from_the_lowest & (from_the_lowest + 1) == 0
    }

    /// Its strings, from the highest number to the lowest, as they are written.
    pub fn iter(self) -> impl Iterator<Item = StringNumber> {
        StringNumber::up_to(12).rev().filter(move |string| self.contains(*string))
    }

    /// The strings that it skips: those between its lowest and its highest number that are not in it.
    pub(crate) fn skipped(self) -> impl Iterator<Item = StringNumber> {
        let highest = 16 - self.bits.leading_zeros();
        let lowest = self.bits.trailing_zeros();
        StringNumber::up_to(highest as usize)
            .skip(lowest as usize)
            .filter(move |string| !self.contains(*string))
    }

    /// Its strings where it has exactly three, from the highest number to the lowest.
    #[must_use]
    pub fn three(self) -> Option<[StringNumber; 3]> {
        let mut strings = self.iter();
        let three = [strings.next()?, strings.next()?, strings.next()?];
        strings.next().is_none().then_some(three)
    }

    /// Every set of `size` neighbouring strings on an instrument of `string_count`, from the floor
    /// up: 3-2-1 comes first, since that is where a melody is played.
    pub fn neighbours(string_count: usize, size: usize) -> impl Iterator<Item = StringSet> {
        StringSet::every(string_count, size).filter(|set| set.is_unbroken())
    }

    /// Every set of `size` strings, skipped ones too: 3-2-1, 4-2-1, 4-3-1, 4-3-2, 5-2-1 …
    pub(crate) fn every(string_count: usize, size: usize) -> impl Iterator<Item = StringSet> {
        let all: u16 = (1 << string_count.min(12)) - 1;
        (1..=all).map(|bits| StringSet { bits }).filter(move |set| set.len() == size)
    }
}

impl fmt::Display for StringSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.iter().enumerate().try_for_each(|(index, string)| {
            let hyphen = if index == 0 { "" } else { "-" };
            write!(f, "{hyphen}{string}")
        })
    }
}

impl fmt::Debug for StringSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "StringSet({self})")
    }
}

impl FromStr for StringSet {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<StringSet, ReadError> {
        let fail =
            |at, expected: &'static str| ReadError::at_character("string set", text, at, expected);
        let mut set = StringSet { bits: 0 };
        for part in hyphenated(text) {
            let read = number(part).and_then(|number| StringNumber::new(number).ok_or(part.0));
            let string = read.map_err(|at| fail(at, "a string number, 1 to 12"))?;
            if set.contains(string) {
                return Err(fail(part.0, "each string once"));
            }
            set = set.with(string);
        }
        Ok(set)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn written(sets: impl Iterator<Item = StringSet>) -> String {
        let words: Vec<String> = sets.map(|set| set.to_string()).collect();
        words.join(" ")
    }

    #[test]
    fn every_set_prints_and_reads_back() {
        for size in 1..=12 {
            for set in StringSet::every(12, size) {
                assert_eq!(set.to_string().parse(), Ok(set));
            }
        }
    }

    #[test]
    fn neighbours_begin_at_the_floor() {
        assert_eq!(written(StringSet::neighbours(6, 3)), "3-2-1 4-3-2 5-4-3 6-5-4");
        assert_eq!(written(StringSet::every(4, 3)), "3-2-1 4-2-1 4-3-1 4-3-2");
        assert_eq!(StringSet::every(6, 3).count(), 20);
        assert_eq!(StringSet::every(2, 3).count(), 0);
        assert_eq!(StringSet::every(12, 0).count(), 0);
    }

    #[test]
    fn a_set_knows_the_instruments_it_fits() {
        let set: StringSet = "5-2-1".parse().unwrap();
        assert!(set.is_on(5) && !set.is_on(4));
        assert_eq!(set.three().unwrap().map(StringNumber::number), [5, 2, 1]);
        assert_eq!("5-2".parse::<StringSet>().unwrap().three(), None);
    }

    #[test]
    fn mistakes_point_at_the_character() {
        for (text, at, expected) in [
            ("", 1, "a string number, 1 to 12"),
            ("4-0-2", 3, "a string number, 1 to 12"),
            ("4-3-13", 5, "a string number, 1 to 12"),
            ("4-3x-2", 4, "a string number, 1 to 12"),
            ("4--2", 3, "a string number, 1 to 12"),
            ("4,3,2", 2, "a string number, 1 to 12"),
            ("4 - 3 - 4", 9, "each string once"),
        ] {
            let error = text.parse::<StringSet>().unwrap_err();
            assert_eq!((error.at(), error.expected()), (at, expected), "{text:?}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in any::<String>()) {
            let _ = text.parse::<StringSet>();
        }

        #[test]
        fn text_like_a_set_reads_back_as_it_prints(text in "[0-9 -]{0,12}") {
            if let Ok(set) = text.parse::<StringSet>() {
                prop_assert_eq!(set.to_string().parse(), Ok(set));
            }
        }
    }
}
