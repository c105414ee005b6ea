//! Comping that was found.

use fretloom_theory::{Pitch, WhichTriad};

use crate::{FretRange, Shape};

/// A shape for each stab over the pairs of a form. Made by a [`CompingQuery`](crate::CompingQuery).
#[derive(Clone, PartialEq, Debug)]
pub struct Comping {
    pub(super) stabs: Vec<Stab>,
    pub(super) area: FretRange,
    pub(super) cost: u64,
}

/// A triad that is struck all at once.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Stab {
    /// Over which chord of the form, from 0.
    pub chord: usize,
    /// Which triad of the chord's pair.
    pub which: WhichTriad,
    /// Where it lies; a hand holds it.
    pub shape: Shape,
}

impl Comping {
    /// The stabs in order.
    #[must_use]
    pub fn stabs(&self) -> &[Stab] {
        &self.stabs
    }

    /// The frets between which all of them lie, as they are [written](crate::Neck::fret_number).
    #[must_use]
    pub const fn area(&self) -> FretRange {
        self.area
    }

    /// What it costs: the sum over its shapes and the steps from each to the next, and to the first
    /// one where it goes round. A fret that a voice goes, a string that it changes and a semitone of
    /// the top voice count 1 each.
    #[must_use]
    pub const fn cost(&self) -> u64 {
        self.cost
    }
}

impl Stab {
    /// The note on top.
    #[must_use]
    pub fn top(&self) -> Pitch {
        let [_, _, top] = self.shape.going_up();
        top
    }
}
