//! What was heard of the explorer last.

use fretloom_fretboard::Shape;

use crate::sound::Strike;

/// What was struck last, and how; the same once more is struck the other way.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct LastStruck {
    pub(super) shapes: Vec<Shape>,
    pub(super) strike: Strike,
}
