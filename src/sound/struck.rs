//! Notes as they are struck.

use fretloom_theory::{Part, Pitch, Quarters};

/// A note as it is struck.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Struck {
    /// When it begins.
    pub onset: Quarters,
    /// When it is damped, which is later.
    pub end: Quarters,
    /// What sounds: all strings of a course, or one.
    pub pitches: Vec<Pitch>,
    /// Is it accented?
    pub accent: bool,
}

impl Struck {
    /// The notes of a part, each on one string and without an accent. Grace notes, which have no time
    /// of their own, are left out.
    #[must_use]
    pub fn of_part(part: &Part) -> Vec<Struck> {
        let main = part.notes().iter().filter(|note| note.grace().is_none());
        let struck = main.map(|note| Struck {
            onset: note.onset(),
            end: note.end(),
            pitches: vec![note.pitch().pitch()],
            accent: false,
        });
        struck.collect()
    }
}
