//! Inversions.

use std::fmt;

/// Which member of the triad sounds lowest.
///
/// For an augmented triad this is a matter of names only: by sound it has no inversion.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Inversion {
    /// The root.
    Root,
    /// The second member: the third, or a sus triad's fourth.
    First,
    /// The third member, the fifth.
    Second,
}

impl Inversion {
    /// The three, root position first.
    pub const ALL: [Inversion; 3] = [Inversion::Root, Inversion::First, Inversion::Second];

    /// The word for it: `root`, `first`, `second`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Inversion::Root => "root",
            Inversion::First => "first",
            Inversion::Second => "second",
        }
    }
}

impl fmt::Display for Inversion {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
