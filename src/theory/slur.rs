//! Slurs.

/// How a note is sounded without the pick.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Slur {
    /// A finger strikes the string.
    HammerOn,
    /// The finger above leaves the string and plucks it.
    PullOff,
}

impl Slur {
    /// Its letter: `h`, `p`.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Slur::HammerOn => 'h',
            Slur::PullOff => 'p',
        }
    }
}
