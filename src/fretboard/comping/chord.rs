//! A chord, as it is comped.

use fretloom_theory::TriadPair;

/// A chord of a form by its pair, and how many stabs there is time for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum CompedChord {
    /// Two stabs: each triad of the pair once, either of them first.
    Both(TriadPair),
    /// One stab: either triad of the pair.
    Either(TriadPair),
}

impl CompedChord {
    /// Its pair.
    #[must_use]
    pub const fn pair(self) -> TriadPair {
        match self {
            CompedChord::Both(pair) | CompedChord::Either(pair) => pair,
        }
    }

    /// How many stabs it has: one or two.
    #[must_use]
    pub const fn stabs(self) -> usize {
        match self {
            CompedChord::Both(_) => 2,
            CompedChord::Either(_) => 1,
        }
    }
}
