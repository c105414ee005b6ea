//! How one note comes to the next.

use std::fmt;

use crate::Pitch;

/// How one note comes to the next.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Arrival {
    /// The same pitch again.
    Repeated,
    /// A half step up or down.
    HalfStep,
    /// A whole step up or down.
    WholeStep,
    /// Anything wider.
    Leap,
}

impl Arrival {
    /// How `to` is reached from `from`.
    #[must_use]
    pub const fn between(from: Pitch, to: Pitch) -> Arrival {
        match from.semitones_up_to(to) {
            0 => Arrival::Repeated,
            -1 | 1 => Arrival::HalfStep,
            -2 | 2 => Arrival::WholeStep,
            _ => Arrival::Leap,
        }
    }

    /// Is it a half or a whole step?
    #[must_use]
    pub const fn is_step(self) -> bool {
        matches!(self, Arrival::HalfStep | Arrival::WholeStep)
    }
}

impl fmt::Display for Arrival {
    /// What follows “by”: `a half step`, `a repeated note`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Arrival::Repeated => "a repeated note",
            Arrival::HalfStep => "a half step",
            Arrival::WholeStep => "a whole step",
            Arrival::Leap => "a leap",
        })
    }
}
