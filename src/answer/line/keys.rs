//! How a line is played in other keys.

pub use fretloom_theory::KeyCycle;

/// How a line is fingered in the other keys.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum KeyFingering {
    /// In the same area, anew in each key.
    Anew,
    /// The same grip, moved along the strings.
    Grip,
}

/// How a line came into a key.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum InKey {
    /// It was made there.
    Here,
    /// The same line, as near as may be to where it last began.
    Moved,
    /// The same line so many octaves up, or down below zero, from where it would be nearest, since
    /// it does not fit there.
    Octaves(i8),
    /// A line made anew of the same question, since the same line fits nowhere in the area.
    MadeAnew,
}
