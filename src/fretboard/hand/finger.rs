//! The fingers of the fretting hand.

use crate::Fret;

/// A finger of the fretting hand, or none for an open string.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Finger {
    /// No finger: the string sounds open. Written 0.
    Open,
    /// The index finger.
    First,
    /// The middle finger.
    Second,
    /// The ring finger.
    Third,
    /// The little finger.
    Fourth,
}

impl Finger {
    /// Its number as guitarists write it: 1 to 4, and 0 for an open string.
    #[must_use]
    pub const fn number(self) -> u8 {
        self as u8
    }

    /// The word for it: `first` to `fourth`, and `open`.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Finger::Open => "open",
            Finger::First => "first",
            Finger::Second => "second",
            Finger::Third => "third",
            Finger::Fourth => "fourth",
        }
    }

    /// Who may play on `fret`.
    pub(crate) const fn choices(fret: Fret) -> &'static [Finger] {
        if fret.is_open() {
            &[Finger::Open]
        } else {
            &[Finger::First, Finger::Second, Finger::Third, Finger::Fourth]
        }
    }

    /// How many fingers further it lies than `lower`.
    pub(crate) const fn steps_above(self, lower: Finger) -> u8 {
        self.number().saturating_sub(lower.number())
    }

    /// Mean length in mm (Chatzioglou, Pinar and Govsa 2024, 51 adults).
    pub(crate) const fn length_mm(self) -> f64 {
        match self {
            Finger::Open => 0.0,
            Finger::First => 63.9,
            Finger::Second => 70.7,
            Finger::Third => 65.5,
            Finger::Fourth => 53.3,
        }
    }
}
