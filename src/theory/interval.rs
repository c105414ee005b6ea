//! Intervals with their names: how many letters up, and how many semitones.

use std::fmt;

use crate::Letter;

/// The way from one note name up to another within an octave.
///
/// An interval knows letters as well as semitones, so a diminished fourth is not a major third. It
/// always goes up.
///
/// # Example
///
/// ```
/// use fretloom_theory::Interval;
/// assert_eq!(Interval::new(2, 3).to_string(), "minor third");
/// assert_eq!(Interval::new(1, 3).to_string(), "augmented second"); // as many semitones
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Interval {
    steps: u8,
    semitones: i8,
}

impl Interval {
    pub(crate) const PERFECT_FOURTH: Interval = Interval::new(3, 5);
    pub(crate) const PERFECT_FIFTH: Interval = Interval::new(4, 7);
    pub(crate) const DIMINISHED_FIFTH: Interval = Interval::new(4, 6);
    /// Four letters and eight semitones up.
    pub const AUGMENTED_FIFTH: Interval = Interval::new(4, 8);

    /// `steps` letters (folded to 0–6) and `semitones` up.
    #[must_use]
    pub const fn new(steps: u8, semitones: i8) -> Interval {
        Interval { steps: steps % 7, semitones }
    }

    /// Letters up, 0 to 6.
    #[must_use]
    pub const fn steps(self) -> u8 {
        self.steps
    }

    /// Semitones up; below 0 or above 11 only for much altered unisons and sevenths.
    #[must_use]
    pub const fn semitones(self) -> i8 {
        self.semitones
    }
}

impl fmt::Display for Interval {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const NUMBERS: [&str; 7] =
            ["unison", "second", "third", "fourth", "fifth", "sixth", "seventh"];
        let number = NUMBERS.get(usize::from(self.steps)).copied().unwrap_or_default();
        let large = Letter::C.semitones_up(self.steps);
        let perfect = matches!(self.steps, 0 | 3 | 4);
        let quality = match (perfect, self.semitones - large) {
            (true, 0) => "perfect",
            (false, 0) => "major",
            (false, -1) => "minor",
            (_, 1) => "augmented",
            (true, -1) | (false, -2) => "diminished",
            (_, 2) => "doubly augmented",
            (true, -2) | (false, -3) => "doubly diminished",
            (_, by) => return write!(f, "{number} altered by {by} semitones"),
        };
        write!(f, "{quality} {number}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::NoteName;

    #[test]
    fn going_up_an_interval_and_measuring_it_agree() {
        for letter in Letter::ALL {
            for sharps in -1..=1 {
                let lower = NoteName::new(letter, sharps).unwrap();
                for (steps, semitones) in [(1, 1), (1, 2), (2, 3), (3, 6), (4, 8), (6, 9), (6, 11)]
                {
                    let interval = Interval::new(steps, semitones);
                    if let Some(upper) = lower.up(interval) {
                        assert_eq!(lower.interval_up_to(upper), interval, "{lower} {upper}");
                    }
                }
            }
        }
    }

    #[test]
    fn names_are_those_of_the_textbooks() {
        for (steps, semitones, name) in [
            (0, 0, "perfect unison"),
            (1, 1, "minor second"),
            (3, 6, "augmented fourth"),
            (4, 6, "diminished fifth"),
            (6, 9, "diminished seventh"),
        ] {
            assert_eq!(Interval::new(steps, semitones).to_string(), name);
        }
    }
}
