//! What the player has chosen, in one piece: so it can be taken back, and found again tomorrow.

use fretloom_fretboard::{StringSet, Tuning};
use fretloom_theory::{ReadChord, Spelling};

use super::in_hand::Held;
use super::neck_view::NeckView;
use crate::answer::{NamedPair, Wishes};
use crate::picture::{FretWidths, Handed, Labels, Top};

/// Every choice of the player. What is shown follows from it; nothing of it is kept elsewhere.
///
/// Where a choice is an index, it counts what follows from the choices before it, from 0.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Chosen {
    pub(super) chord: TypedChord,
    /// Which of the scales that fit the chord.
    pub(super) scale: usize,
    pub(super) spelling: Spelling,
    /// Which of [`Families::in_turn`](crate::answer::Families::in_turn) are paired.
    pub(super) families: usize,
    pub(super) wishes: Wishes,
    /// Which row of the list of pairs: one fold of them.
    pub(super) row: usize,
    /// Which copy within the fold, 0 for its first pair.
    pub(super) copy: usize,
    /// With its capo.
    pub(super) tuning: Tuning,
    /// The strings of the player's partial capo, kept while it is off; none for a full one.
    pub(super) capo_strings: Option<StringSet>,
    /// Which set of three neighbouring strings the ladder climbs.
    pub(super) set: usize,
    /// Is that set the only one to be played?
    pub(super) locked: bool,
    /// Which rung of the ladder is in hand; none where the ladder has none.
    pub(super) rung: Option<usize>,
    pub(super) held: Held,
    pub(super) view: NeckView,
    pub(super) labels: Labels,
    /// Are the notes that the pair leaves out drawn?
    pub(super) shows_left_out: bool,
    pub(super) handed: Handed,
    pub(super) top: Top,
    pub(super) fret_widths: FretWidths,
    /// The first fret in view, from 1.
    pub(super) first_fret: u8,
}

/// A chord symbol as it was typed, and what it was read as.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct TypedChord {
    pub(super) symbol: String,
    pub(super) read: ReadChord,
}

impl TypedChord {
    pub(super) fn new(symbol: &str, read: ReadChord) -> TypedChord {
        TypedChord { symbol: symbol.trim().to_owned(), read }
    }
}

/// A chord that the player has been at, with the scale and the pair of that moment.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Page {
    pub(super) chord: TypedChord,
    pub(super) scale: usize,
    /// None where the scale holds no pair.
    pub(super) pair: Option<NamedPair>,
}
