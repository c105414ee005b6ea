//! Regions: parts of a neck.

use std::fmt;

use crate::{Fret, FretRange, Neck, Place, StringSet};

/// A part of a neck: some strings, some frets, with open strings or without. By default all of it.
///
/// Frets are counted as they are [written](Neck::fret_number): an open string is fret 0, and the
/// capo's fret where a capo holds it. A region is made without a neck; what the neck does not have
/// is not in it, and [`check`](Self::check) tells whether there is such a thing.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, Neck, Place, Region, StringNumber, Tuning};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let region = Region::default().on("4-3-2".parse().unwrap()).within("5-8".parse().unwrap());
/// let place = |string, fret| {
///     Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
/// };
/// assert!(region.contains(&neck, place(3, 5)));
/// assert!(!region.contains(&neck, place(1, 5)));
/// assert!(!region.contains(&neck, place(3, 0)));
/// assert!(Region::default().on("7-6-5".parse().unwrap()).check(&neck).is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Region {
    /// `None` for all of them.
    strings: Option<StringSet>,
    frets: FretRange,
    open_strings: OpenStrings,
}

/// May strings sound open?
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum OpenStrings {
    Allowed,
    Avoided,
}

impl Default for Region {
    fn default() -> Region {
        Region::WHOLE_NECK
    }
}

impl Region {
    /// All strings and frets, open strings too.
    pub const WHOLE_NECK: Region =
        Region { strings: None, frets: FretRange::WHOLE_NECK, open_strings: OpenStrings::Allowed };

    /// The same region on these strings only.
    #[must_use]
    pub const fn on(mut self, strings: StringSet) -> Region {
        self.strings = Some(strings);
        self
    }

    /// The same region on all strings.
    #[must_use]
    pub const fn on_all_strings(mut self) -> Region {
        self.strings = None;
        self
    }

    /// The same region at these frets only. A range that does not begin at 0 leaves open strings
    /// out, apart from those that a capo holds at one of its frets.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> Region {
        self.frets = frets;
        self
    }

    /// The same region without open strings, also those that a capo holds.
    #[must_use]
    pub const fn without_open_strings(mut self) -> Region {
        self.open_strings = OpenStrings::Avoided;
        self
    }

    /// Its strings, where not all are in it.
    #[must_use]
    pub const fn strings(self) -> Option<StringSet> {
        self.strings
    }

    /// Its frets.
    #[must_use]
    pub const fn frets(self) -> FretRange {
        self.frets
    }

    /// Does it lie on the neck?
    ///
    /// # Errors
    ///
    /// Where it names a string that the neck does not have, or frets that begin above the last one.
    /// Frets may end beyond the neck, as a range does that is made for a longer one.
    pub fn check(self, neck: &Neck) -> Result<(), RegionError> {
        let (count, last) = (neck.tuning().string_count(), neck.tuning().last_fret());
        match self.strings {
            Some(strings) if !strings.is_on(count) => {
                Err(RegionError::NoSuchStrings { strings, count })
            }
            _ if self.frets.first() > last => {
                Err(RegionError::NoSuchFrets { frets: self.frets, last })
            }
            _ => Ok(()),
        }
    }

    /// Is `place` in it?
    #[must_use]
    pub fn contains(self, neck: &Neck, place: Place) -> bool {
        self.strings.is_none_or(|strings| strings.contains(place.string))
            && self.frets.contains(neck.fret_number(place))
            && (self.open_strings == OpenStrings::Allowed || !place.fret.is_open())
    }
}

/// Why a neck does not have a region.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum RegionError {
    /// It names strings that are not there.
    NoSuchStrings {
        /// Its strings.
        strings: StringSet,
        /// How many strings the neck has.
        count: usize,
    },
    /// It begins above the last fret.
    NoSuchFrets {
        /// Its frets.
        frets: FretRange,
        /// The last fret of the neck.
        last: Fret,
    },
}

impl fmt::Display for RegionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RegionError::NoSuchStrings { strings, count } => write!(
                f,
                "there are no strings {strings} on this instrument: expected strings from 1, the \
                 one nearest the floor, to {count}"
            ),
            RegionError::NoSuchFrets { frets, last } => write!(
                f,
                "there are no frets {frets} on this instrument: the neck ends at fret {last}; \
                 expected frets from 0 to {last}"
            ),
        }
    }
}

impl std::error::Error for RegionError {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Capo, StringNumber, Tuning};

    fn neck(capo: Capo) -> Neck {
        Neck::new(Tuning::read("EADGBE").unwrap().with_capo(capo).unwrap())
    }

    fn open(string: u8) -> Place {
        Place::new(StringNumber::new(string).unwrap(), Fret::OPEN)
    }

    #[test]
    fn the_whole_neck_has_every_place() {
        let neck = neck(Capo::NONE);
        assert!(neck.places().all(|(place, _)| Region::default().contains(&neck, place)));
        assert_eq!(Region::WHOLE_NECK.check(&neck), Ok(()));
    }

    /// Behind a capo an open string is written with the capo's fret.
    #[test]
    fn open_strings_lie_where_they_are_written() {
        let region = Region::default().within("2-5".parse().unwrap());
        assert!(!region.contains(&neck(Capo::NONE), open(3)));
        let capo = Capo::partial(Fret::new(2).unwrap(), "3".parse().unwrap());
        let neck = neck(capo);
        assert!(region.contains(&neck, open(3)));
        assert!(!region.contains(&neck, open(4)));
        assert!(!region.without_open_strings().contains(&neck, open(3)));
    }

    #[test]
    fn a_region_beyond_the_neck_says_so() {
        let neck = neck(Capo::NONE);
        let said = |region: Region| region.check(&neck).unwrap_err().to_string();
        assert_eq!(
            said(Region::default().on("7-6-5".parse().unwrap())),
            "there are no strings 7-6-5 on this instrument: expected strings from 1, the one \
             nearest the floor, to 6"
        );
        assert_eq!(
            said(Region::default().within("23-25".parse().unwrap())),
            "there are no frets 23-25 on this instrument: the neck ends at fret 22; expected \
             frets from 0 to 22"
        );
        assert_eq!(Region::default().within("22-30".parse().unwrap()).check(&neck), Ok(()));
    }
}
