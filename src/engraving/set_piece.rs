//! A note, a chord or a rest as it is set.

use crate::score_file::notation::{Beam, Piece};

/// A note, a chord or a rest.
pub(super) struct SetPiece {
    pub(super) piece: Piece,
    pub(super) beams: Vec<Beam>,
    /// The heads from the lowest up; none for a rest.
    pub(super) heads: Vec<Head>,
    /// Does it go on from the piece before?
    pub(super) is_tied_to: bool,
    /// Does it go on in the next piece?
    pub(super) is_tied_on: bool,
}

/// A head.
#[derive(Clone, Copy)]
pub(super) struct Head {
    /// The index of its note.
    pub(super) note: usize,
    /// How many steps above the lowest line.
    pub(super) step: i32,
    /// The accidental that it needs.
    pub(super) sign: Option<i8>,
}
