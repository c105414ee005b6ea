//! What is asked of somebody who hears a pair.

/// What is to be named by ear.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Asked {
    /// Which pair of the chord's it is.
    #[default]
    Pair,
    /// Which quality each of its triads has.
    Qualities,
    /// What it leaves out of the scale.
    LeftOut,
}

impl Asked {
    /// All there are.
    pub const ALL: [Asked; 3] = [Asked::Pair, Asked::Qualities, Asked::LeftOut];

    /// `pair`, `qualities` or `left-out`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Asked::Pair => "pair",
            Asked::Qualities => "qualities",
            Asked::LeftOut => "left-out",
        }
    }

    /// The question of that word.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Asked> {
        Asked::ALL.into_iter().find(|asked| asked.word() == word)
    }
}
