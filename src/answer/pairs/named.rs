//! A pair under its name.

use std::fmt;

use fretloom_theory::{SpelledTriad, TriadPair};

use crate::answer::refusal::Refusal;

/// Two triads that share no note, as they are written; prints as `B♭ & C`, and in ASCII (`{:#}`)
/// as `Bb & C`.
///
/// Their order is that of the name, which is the player's for a pair that the player names.
///
/// ```
/// use fretloom::answer::NamedPair;
/// let [bb, c, e] = ["Bb", "C", "Em"].map(|name| name.parse().unwrap());
/// assert_eq!(NamedPair::new([bb, c]).unwrap().to_string(), "B♭ & C");
/// assert!(NamedPair::new([c, e]).is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NamedPair {
    names: [SpelledTriad; 2],
    pair: TriadPair,
}

impl NamedPair {
    /// The pair of two triads.
    ///
    /// # Errors
    ///
    /// Where they share a note.
    pub fn new(names: [SpelledTriad; 2]) -> Result<NamedPair, Refusal> {
        let [first, second] = names.map(|name| name.triad());
        let pair = TriadPair::in_order(first, second).ok_or(Refusal::NoPair(names))?;
        Ok(NamedPair { names, pair })
    }

    /// A pair whose triads have these names.
    pub(in crate::answer) const fn of(pair: TriadPair, names: [SpelledTriad; 2]) -> NamedPair {
        NamedPair { names, pair }
    }

    /// The triads under their names.
    #[must_use]
    pub const fn names(self) -> [SpelledTriad; 2] {
        self.names
    }

    /// The pair, its triads in the order of the names.
    #[must_use]
    pub const fn pair(self) -> TriadPair {
        self.pair
    }
}

impl fmt::Display for NamedPair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [first, second] = &self.names;
        first.fmt(f)?;
        f.write_str(" & ")?;
        second.fmt(f)
    }
}
