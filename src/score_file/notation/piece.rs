//! What is written for a note or a rest: one value, tied to others where one does not do.

use fretloom_theory::Quarters;

use super::tuplet::Tuplet;
use super::value::Value;

/// A note, a chord or a rest as it is written, within a bar.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Piece {
    /// When it begins, from the beginning of the score.
    pub(crate) from: Quarters,
    pub(crate) length: Quarters,
    /// What it looks like; `None` for a rest of a whole bar, and for what has no value.
    pub(crate) value: Option<Value>,
    pub(crate) tuplet: Option<InTuplet>,
    /// What is struck; `None` for a rest.
    pub(crate) struck: Option<usize>,
}

/// Where a piece stands in its tuplet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct InTuplet {
    pub(crate) tuplet: Tuplet,
    pub(crate) is_first: bool,
    pub(crate) is_last: bool,
}

impl Piece {
    pub(crate) fn end(&self) -> Quarters {
        self.from.checked_add(self.length).unwrap_or(self.from)
    }
}
