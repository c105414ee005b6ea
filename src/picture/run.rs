//! Pictures set in signs, one sign a column.

use fretloom_theory::WhichTriad;

/// Signs side by side in one row of a picture that is set in columns and rows.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Run {
    /// The column of its first sign, from 0.
    pub column: u16,
    /// Its row, from 0.
    pub row: u16,
    /// Its signs, each of them one column wide.
    pub text: String,
    /// What it shows.
    pub ink: Ink,
}

/// What a run shows, for writers that have colours or weights.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ink {
    /// What is there but not spoken of: numbers, inlays, strings that are not in use, notes that the
    /// pair leaves out.
    Quiet,
    /// A string, its nut and its wires, and its name.
    String,
    /// A note of one of the two triads.
    Note {
        /// Which triad.
        which: WhichTriad,
        /// How strongly it is shown.
        weight: Weight,
        /// Does it stay from the pair before?
        stays: bool,
    },
}

/// How strongly a note is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Weight {
    /// Hidden by the view, or on a string that is not in use.
    Quiet,
    /// As a note of its triad.
    Plain,
    /// As a note of the shape in hand.
    Held,
}
