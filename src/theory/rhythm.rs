//! Rhythms: how long the notes of a line are.

mod length;
mod read;

use std::fmt;
use std::iter;

use crate::time::Quarters;

/// How long the notes of a line are: values that go round and round, whatever is played on them.
///
/// A value is written by its number, 4 for a quarter and 8 for an eighth.
///
/// | written | meaning |
/// |---|---|
/// | `1 2 4 8 16 32 64` | a whole note, and its parts |
/// | `8.` `4..` | dotted |
/// | `4~8` | tied to one note |
/// | `-8` | a rest |
/// | `>8` | accented |
/// | `3:2(8 8 8)` | three in the time of two |
/// | <code>8 &#124; 4 8 8</code> | before the stroke stands what is played once, as a pick-up |
///
/// `eighths`, `triplets` and their like are read too.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Quarters, Rhythm};
/// let charleston: Rhythm = "4. 8~2".parse().unwrap();
/// let lengths: Vec<Quarters> = charleston.values().take(3).map(|value| value.length).collect();
/// let [long, longer] = [Quarters::new(3, 2), Quarters::new(5, 2)].map(Option::unwrap);
/// assert_eq!(lengths, [long, longer, long]);
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Rhythm {
    pick_up: Vec<RhythmValue>,
    /// At least one, and one of them a note.
    cycle: Vec<RhythmValue>,
}

/// One value of a rhythm.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct RhythmValue {
    /// How long it is, which is not nothing.
    pub length: Quarters,
    /// What it is.
    pub kind: ValueKind,
}

/// What a value of a rhythm is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ValueKind {
    /// A note.
    Note,
    /// An accented note.
    Accent,
    /// A rest.
    Rest,
}

impl Rhythm {
    /// The most values that a rhythm has.
    pub const LONGEST: usize = 256;

    /// Nothing but notes of one length; `None` for no length.
    #[must_use]
    pub fn even(length: Quarters) -> Option<Rhythm> {
        let value = RhythmValue { length, kind: ValueKind::Note };
        (!length.is_zero()).then(|| Rhythm { pick_up: Vec::new(), cycle: vec![value] })
    }

    /// Eighth after eighth.
    #[must_use]
    pub fn eighths() -> Rhythm {
        let value = RhythmValue { length: Quarters::EIGHTH, kind: ValueKind::Note };
        Rhythm { pick_up: Vec::new(), cycle: vec![value] }
    }

    /// What is played once before the rest goes round.
    #[must_use]
    pub fn pick_up(&self) -> &[RhythmValue] {
        &self.pick_up
    }

    /// What goes round and round.
    #[must_use]
    pub fn cycle(&self) -> &[RhythmValue] {
        &self.cycle
    }

    /// All values in the order in which they come, without end.
    pub fn values(&self) -> impl Iterator<Item = RhythmValue> + '_ {
        self.pick_up.iter().chain(iter::repeat(&self.cycle).flatten()).copied()
    }

    /// How many notes one round has.
    #[must_use]
    pub fn notes_a_round(&self) -> usize {
        self.cycle.iter().filter(|value| value.kind != ValueKind::Rest).count()
    }

    /// How long one round is; `None` where that does not fit [`Quarters`].
    #[must_use]
    pub fn round(&self) -> Option<Quarters> {
        length_of(&self.cycle)
    }

    /// How long the pick-up is; `None` where that does not fit [`Quarters`].
    #[must_use]
    pub fn pick_up_length(&self) -> Option<Quarters> {
        length_of(&self.pick_up)
    }
}

fn length_of(values: &[RhythmValue]) -> Option<Quarters> {
    values.iter().try_fold(Quarters::ZERO, |sum, value| sum.checked_add(value.length))
}

impl Default for Rhythm {
    /// Eighth after eighth.
    fn default() -> Rhythm {
        Rhythm::eighths()
    }
}

impl fmt::Display for Rhythm {
    /// `8 | 4 -8 >8`; a value that has no other name as a tuplet of its own, `3:2(8)`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let written = |values: &[RhythmValue]| {
            values.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
        };
        if !self.pick_up.is_empty() {
            write!(f, "{} | ", written(&self.pick_up))?;
        }
        f.write_str(&written(&self.cycle))
    }
}

impl fmt::Display for RhythmValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mark = match self.kind {
            ValueKind::Note => "",
            ValueKind::Accent => ">",
            ValueKind::Rest => "-",
        };
        f.write_str(&length::written(self.length, mark))
    }
}

#[cfg(test)]
mod tests;
