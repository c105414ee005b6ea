//! What a view hides.

use fretloom_theory::Pitch;

/// Something that a view hides.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Hidden {
    /// This many other places of the pair.
    Places(usize),
    /// A pitch that the four frets of a position lack; a stretch brings it back.
    OutOfBox(Pitch),
    /// A pitch between the lowest and the highest of a position that no stretch reaches.
    OutOfReach(Pitch),
}

impl Hidden {
    /// The pitch, where it is one.
    #[must_use]
    pub const fn pitch(&self) -> Option<Pitch> {
        match self {
            Hidden::Places(_) => None,
            Hidden::OutOfBox(pitch) | Hidden::OutOfReach(pitch) => Some(*pitch),
        }
    }

    /// What is hidden, in words. `name` names a pitch, since its spelling is the pair's.
    pub fn words(&self, name: impl Fn(Pitch) -> String) -> String {
        match self {
            Hidden::Places(1) => "1 more note of the pair elsewhere on the neck".to_owned(),
            Hidden::Places(count) => {
                format!("{count} more notes of the pair elsewhere on the neck")
            }
            Hidden::OutOfBox(pitch) => {
                format!("{} is out of the box without a stretch", name(*pitch))
            }
            Hidden::OutOfReach(pitch) => format!("{} is out of reach from here", name(*pitch)),
        }
    }
}
