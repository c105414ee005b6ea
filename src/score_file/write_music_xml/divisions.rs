//! The unit of time of a file.

use fretloom_theory::Quarters;

use crate::score_file::write_error::ScoreWriteError;

/// How many divisions a quarter note has.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Divisions(u32);

impl Divisions {
    /// So many that all these lengths are whole numbers.
    pub(super) fn of(
        lengths: impl Iterator<Item = Quarters>,
    ) -> Result<Divisions, ScoreWriteError> {
        let mut denominators = lengths.map(Quarters::denominator);
        let common = denominators.try_fold(1, common_multiple);
        common.map(Divisions).ok_or(ScoreWriteError::TooFine)
    }

    pub(super) const fn of_quarter(self) -> u32 {
        self.0
    }

    /// A length in divisions.
    pub(super) fn count(self, length: Quarters) -> u64 {
        // Exact: the denominator divides the divisions.
        length.numerator().saturating_mul(u64::from(self.0 / length.denominator()))
    }
}

fn common_multiple(one: u32, other: u32) -> Option<u32> {
    // What is finer than this no program reads.
    const MOST: u32 = 1 << 24;
    let multiple = (one / common_divisor(one, other)).checked_mul(other)?;
    (multiple <= MOST).then_some(multiple)
}

fn common_divisor(one: u32, other: u32) -> u32 {
    if other == 0 { one } else { common_divisor(other, one % other) }
}
