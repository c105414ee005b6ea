//! How dark something is.

/// How dark something is. There are no colours, so that a copier loses nothing.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Shade {
    /// Black.
    #[default]
    Black,
    /// Grey that is still dark where a copier knows only black and white.
    Grey,
    /// Grey that is white there.
    Pale,
    /// White, over what lies below.
    White,
}

impl Shade {
    /// How light it is: 0 for black, 1 for white.
    #[must_use]
    pub const fn lightness(self) -> f64 {
        match self {
            Shade::Black => 0.0,
            Shade::Grey => 0.4,
            Shade::Pale => 0.75,
            Shade::White => 1.0,
        }
    }
}
