//! Pick strokes.

/// Which way the pick goes through the string.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Stroke {
    /// Towards the floor.
    Down,
    /// Away from it.
    Up,
}

impl Stroke {
    /// The other way.
    #[must_use]
    pub const fn other(self) -> Stroke {
        match self {
            Stroke::Down => Stroke::Up,
            Stroke::Up => Stroke::Down,
        }
    }

    /// The word for it: `down`, `up`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Stroke::Down => "down",
            Stroke::Up => "up",
        }
    }
}
