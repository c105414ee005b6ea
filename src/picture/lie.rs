//! How a drawn neck lies before the player.

/// Which hand frets, and so where the nut is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Handed {
    /// The nut at the left.
    Right,
    /// The mirror image, the nut at the right.
    Left,
}

/// Which string is drawn on top.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Top {
    /// String 1, nearest the floor.
    First,
    /// The last one, as the neck looks from above.
    Last,
}
