//! Where a line lands on the next chord.

use std::fmt::{self, Display};

use super::arrival::Arrival;
use crate::{Chord, Degree};

/// Where a line lands when the chord changes, and how it comes there.
///
/// It prints as a player writes it down: `3 of Cm6 by a half step`. The chord's own third, fifth
/// and seventh go by their number alone, whatever their size.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Landing {
    /// The note that it lands on: its index in the part.
    pub note: usize,
    /// What that note is over the chord.
    pub degree: Degree,
    /// The chord.
    pub chord: Chord,
    /// How the note before leads there.
    pub arrival: Arrival,
}

impl Landing {
    /// The degree as one says where a line lands: the third of a minor chord is its 3.
    pub(super) fn said(&self) -> Degree {
        let plain = Degree::new(self.degree.number(), 0).unwrap_or(self.degree);
        let is_own = matches!(plain.number(), 3 | 5 | 7) && self.chord.names(self.degree);
        if is_own { plain } else { self.degree }
    }
}

impl Display for Landing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.said().fmt(f)?;
        f.write_str(" of ")?;
        self.chord.fmt(f)?;
        write!(f, " by {}", self.arrival)
    }
}
