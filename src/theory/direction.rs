//! Up or down.

/// Which way to go in pitch.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Direction {
    /// To higher notes.
    Up,
    /// To lower notes.
    Down,
}

impl Direction {
    /// The other way.
    #[must_use]
    pub const fn other(self) -> Direction {
        match self {
            Direction::Up => Direction::Down,
            Direction::Down => Direction::Up,
        }
    }
}
