//! How the player has set up instrument and notation, for all screens alike.

use fretloom_fretboard::{StringSet, Tuning};
use fretloom_theory::Spelling;

use crate::picture::{FretWidths, Handed, Top};

/// What the player has chosen that is not of one screen. It is taken back with the choices of the
/// screen on which it was made.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Setup {
    /// With its capo.
    pub(in crate::tui) tuning: Tuning,
    /// The strings of the player's partial capo, kept while it is off; none for a full one.
    pub(in crate::tui) capo_strings: Option<StringSet>,
    pub(in crate::tui) spelling: Spelling,
    pub(in crate::tui) handed: Handed,
    pub(in crate::tui) top: Top,
    pub(in crate::tui) fret_widths: FretWidths,
}

impl Setup {
    /// This tuning as most players hold and read it.
    pub(super) fn usual(tuning: Tuning, spelling: Spelling) -> Setup {
        Setup {
            tuning,
            capo_strings: None,
            spelling,
            handed: Handed::Right,
            top: Top::First,
            fret_widths: FretWidths::Even,
        }
    }
}
