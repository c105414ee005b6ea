//! How hard a stretch is for a hand.

use std::fmt;

/// How hard a shape is, compared with the hand that takes it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Ease {
    /// The hand lies at ease.
    Easy,
    /// The hand takes it near the end of its reach: to be warmed up for, and not for long.
    Wide,
    /// This hand does not hold it.
    Beyond,
}

impl Ease {
    /// The word for it: `easy`, `wide`, `beyond`.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Ease::Easy => "easy",
            Ease::Wide => "wide",
            Ease::Beyond => "beyond",
        }
    }
}

impl fmt::Display for Ease {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
