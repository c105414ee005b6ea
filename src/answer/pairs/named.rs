//! A pair under its name.

use std::fmt;

use fretloom_theory::{SpelledTriad, Triad};

use crate::answer::refusal::Refusal;

/// Two triads that share no note, as they are written; prints as `B♭ & C`, and in ASCII (`{:#}`)
/// as `Bb & C`.
///
/// Their order is that of the name. A [`TriadPair`](fretloom_theory::TriadPair) orders them by
/// what it is heard over.
///
/// ```
/// use fretloom::answer::NamedPair;
/// let [bb, c, e] = ["Bb", "C", "Em"].map(|name| name.parse().unwrap());
/// assert_eq!(NamedPair::new([bb, c]).unwrap().to_string(), "B♭ & C");
/// assert!(NamedPair::new([c, e]).is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NamedPair([SpelledTriad; 2]);

impl NamedPair {
    /// The pair of two triads.
    ///
    /// # Errors
    ///
    /// Where they share a note.
    pub fn new(triads: [SpelledTriad; 2]) -> Result<NamedPair, Refusal> {
        let [first, second] = triads.map(|triad| triad.triad().set());
        if first.is_disjoint(second) { Ok(NamedPair(triads)) } else { Err(Refusal::NoPair(triads)) }
    }

    /// Two triads that are known to share no note.
    pub(super) const fn known(triads: [SpelledTriad; 2]) -> NamedPair {
        NamedPair(triads)
    }

    /// The triads under their names.
    #[must_use]
    pub const fn names(self) -> [SpelledTriad; 2] {
        self.0
    }

    /// What the triads sound as.
    #[must_use]
    pub fn triads(self) -> [Triad; 2] {
        self.0.map(|triad| triad.triad())
    }
}

impl fmt::Display for NamedPair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [first, second] = &self.0;
        first.fmt(f)?;
        f.write_str(" & ")?;
        second.fmt(f)
    }
}
