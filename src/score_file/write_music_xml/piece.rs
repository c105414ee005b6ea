//! What is written for a note or a rest: one value, tied to others where one does not do.

use fretloom_theory::Quarters;

use super::tuplet::Tuplet;
use super::value::Value;

/// A note, a chord or a rest as it is written, within a bar.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Piece {
    /// When it begins, from the beginning of the score.
    pub(super) from: Quarters,
    pub(super) length: Quarters,
    /// What it looks like; `None` for a rest of a whole bar, and for what has no value.
    pub(super) value: Option<Value>,
    pub(super) tuplet: Option<InTuplet>,
    /// What is struck; `None` for a rest.
    pub(super) struck: Option<usize>,
}

/// Where a piece stands in its tuplet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct InTuplet {
    pub(super) tuplet: Tuplet,
    pub(super) is_first: bool,
    pub(super) is_last: bool,
}

impl Piece {
    pub(super) fn end(&self) -> Quarters {
        self.from.checked_add(self.length).unwrap_or(self.from)
    }
}
