//! What a player wishes of every pair of a plan.

use std::fmt;
use std::str::FromStr;

use crate::{PairSound, ReadError, TriadPair, TriadQuality};

/// What is wished of all pairs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Wishes {
    pub(super) kinds: Option<PairKinds>,
    pub(super) guide_tones: GuideTones,
    pub(super) sections: Sections,
    /// How many different pairs there are in all at most.
    pub(super) most_pairs: Option<usize>,
}

/// The qualities of the two triads of a pair, in either order; typed `major & minor`, or `major` for two
/// alike.
///
/// ```
/// use fretloom_theory::{PairKinds, TriadQuality};
/// let kinds: PairKinds = "major, augmented".parse().unwrap();
/// assert_eq!(kinds, PairKinds(TriadQuality::Major, TriadQuality::Augmented));
/// assert!("major & sus".parse::<PairKinds>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PairKinds(pub TriadQuality, pub TriadQuality);

/// What a pair has to do with third and seventh of its chord.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum GuideTones {
    /// It costs where it leaves them out.
    #[default]
    Weighed,
    /// It states the third.
    Third,
    /// It states both.
    Both,
}

/// How a section begins.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Sections {
    /// As any chord does.
    Alike,
    /// With another pair.
    Contrasting,
}

impl Wishes {
    pub(super) const NONE: Wishes = Wishes {
        kinds: None,
        guide_tones: GuideTones::Weighed,
        sections: Sections::Alike,
        most_pairs: None,
    };

    /// Does a pair do what is wished?
    pub(super) fn allow(self, sound: &PairSound) -> bool {
        let states = match self.guide_tones {
            GuideTones::Weighed => true,
            GuideTones::Third => sound.states_third(),
            GuideTones::Both => sound.states_third() && sound.states_seventh(),
        };
        states && self.kinds.is_none_or(|kinds| kinds.are_of(sound.pair()))
    }
}

impl PairKinds {
    fn are_of(self, pair: TriadPair) -> bool {
        let [first, second] = pair.triads().map(|triad| triad.quality());
        [(first, second), (second, first)].contains(&(self.0, self.1))
    }
}

impl FromStr for PairKinds {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where the text is neither one nor two of major, minor, diminished and augmented.
    fn from_str(text: &str) -> Result<PairKinds, ReadError> {
        let quality = |word: &str| {
            let mut qualities = TriadQuality::TERTIAN.iter();
            qualities.find(|quality| quality.word() == word.trim().to_lowercase()).copied()
        };
        let (one, other) = text.split_once(['&', ',']).unwrap_or((text, text));
        quality(one).zip(quality(other)).map(|(one, other)| PairKinds(one, other)).ok_or_else(
            || {
                let expected = "one or two of major, minor, diminished and augmented, as in \
                            major & minor";
                ReadError::whole("couple of triads", text, expected)
            },
        )
    }
}

impl fmt::Display for PairKinds {
    /// `major & minor`; `major` for two alike.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let PairKinds(one, other) = self;
        match one == other {
            true => f.write_str(one.word()),
            false => write!(f, "{} & {}", one.word(), other.word()),
        }
    }
}
