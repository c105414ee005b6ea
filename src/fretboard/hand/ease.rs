//! How hard a stretch is for a hand.

use std::fmt;

use crate::Hand;

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

/// From this part of the reach on a stretch is wide. For the default hand that is a grip of four
/// frets in the lowest position of a guitar, which players know as wide; no source measures it.
const WIDE_PART: f64 = 0.8;

impl Ease {
    /// The word for it: `easy`, `wide`, `beyond`.
    #[must_use]
    pub const fn word(self) -> &'static str {
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

impl Hand {
    /// How hard a stretch over `mm` is that this hand can take.
    ///
    /// ```
    /// use fretloom_fretboard::{Ease, Hand};
    /// assert_eq!(Hand::default().ease_of(95.0), Ease::Easy);
    /// assert_eq!(Hand::default().ease_of(97.0), Ease::Wide);
    /// assert_eq!(Hand::reaching_mm(100.0).unwrap().ease_of(85.0), Ease::Wide);
    /// ```
    #[must_use]
    pub fn ease_of(self, mm: f64) -> Ease {
        if mm >= self.reach_mm() * WIDE_PART { Ease::Wide } else { Ease::Easy }
    }
}
