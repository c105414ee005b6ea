//! What a player likes.

use crate::Fret;

/// What the player likes, where playing is not a matter of what is possible.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, Taste};
/// let fifth = Fret::new(5).unwrap();
/// assert_eq!(Taste::default().with_home(fifth), Taste::default());
/// let tame = Taste::default().with_open_strings_at_mm(5000.0);
/// assert_eq!(tame, Taste::default().with_open_strings_at_mm(1000.0));
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Taste {
    home: Fret,
    open_string_mm: f64,
}

impl Default for Taste {
    /// As soloists play in the recordings that the cost was fitted to: the hand likes to be no
    /// higher than the fifth fret, and an open string is used where it saves a long way.
    fn default() -> Taste {
        Taste { home: HOME, open_string_mm: 180.0 }
    }
}

const HOME: Fret = match Fret::new(5) {
    Some(fret) => fret,
    None => Fret::OPEN,
};

impl Taste {
    /// The hand likes to be no higher than `fret`, counted from the nut or from a full capo.
    #[must_use]
    pub const fn with_home(self, fret: Fret) -> Taste {
        Taste { home: fret, ..self }
    }

    /// An open string costs as much as moving the hand by `mm` with time to spare; 0 for a player
    /// who likes them as well as any other note. Clamped to 0 to 1000.
    #[must_use]
    pub fn with_open_strings_at_mm(self, mm: f64) -> Taste {
        let mm = if mm.is_finite() { mm.clamp(0.0, 1000.0) } else { self.open_string_mm };
        Taste { open_string_mm: mm, ..self }
    }

    /// That fret as a part of the sounding string, by the rule of equal temperament.
    pub(super) fn home_part(self) -> f64 {
        1.0 - (-f64::from(self.home.number()) / 12.0).exp2()
    }

    /// What an open string costs, in millimetres.
    #[must_use]
    pub(crate) const fn open_string_mm(self) -> f64 {
        self.open_string_mm
    }
}
