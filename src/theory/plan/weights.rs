//! What counts in a plan.

use std::fmt;
use std::iter::Sum;
use std::ops::Add;

/// What a plan costs, in changes of pair: a new pair costs 1, and everything else is weighed against
/// that.
///
/// It is kept in ten-thousandths, so that sums are exact and the cheapest plan is the same
/// everywhere.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct PlanCost(u64);

/// What something costs as the search counts it, in ten-thousandths of a change; forbidden from
/// [`FORBIDDEN`] on. Small, so that a row of them is added up quickly.
pub(super) type Count = u32;
/// More than a chord costs with the way to it, and small enough for the sum of two.
pub(super) const FORBIDDEN: Count = 1 << 29;

impl PlanCost {
    /// Nothing.
    pub const ZERO: PlanCost = PlanCost(0);
    /// A change of pair.
    pub const CHANGE: PlanCost = PlanCost::thousandths(1_000);
    /// The same pair moved by a fret or two.
    pub(super) const MOVE: PlanCost = PlanCost::thousandths(500);
    /// For each note of a new pair that is not there before.
    pub(super) const NEW_NOTE: PlanCost = PlanCost::thousandths(40);
    /// For each of these that no half step leads to.
    pub(super) const LEAP: PlanCost = PlanCost::thousandths(20);
    /// A pair that goes on where another one is wanted.
    pub(super) const GOES_ON: PlanCost = PlanCost::thousandths(1_200);

    /// For each note that rubs, a bar.
    pub(super) const RUB: PlanCost = PlanCost::thousandths(220);
    /// For each note that the symbol names and the pair leaves out, a bar; root and plain fifth are
    /// free.
    pub(super) const NAMED: PlanCost = PlanCost::thousandths(240);
    /// For the third beyond that.
    pub(super) const THIRD: PlanCost = PlanCost::thousandths(300);
    /// For each alteration of an `alt` chord, of which any will do.
    pub(super) const ALTERATION: PlanCost = PlanCost::thousandths(20);
    /// For each scale before it in the list of the chord, a bar.
    pub(super) const LATER_SCALE: PlanCost = PlanCost::thousandths(20);
    /// For each pair before it in the list of the scale, a bar.
    pub(super) const RANK: PlanCost = PlanCost::thousandths(2);
    /// For neither third nor seventh, however short the chord is.
    pub(super) const NO_GUIDE_TONE: PlanCost = PlanCost::thousandths(2_000);
    /// For each note that rubs where a line rests.
    pub(super) const REST_RUB: PlanCost = PlanCost::thousandths(350);
    /// For a line that rests on a chord without its third.
    pub(super) const REST_WITHOUT_THIRD: PlanCost = PlanCost::thousandths(2_000);

    /// So many thousandths of a change.
    #[must_use]
    pub const fn thousandths(count: u32) -> PlanCost {
        PlanCost(count as u64 * 10)
    }

    /// As the search counts it; what is too much is forbidden.
    pub(super) fn count(self) -> Count {
        Count::try_from(self.0).unwrap_or(FORBIDDEN).min(FORBIDDEN)
    }

    /// What the search has counted.
    pub(super) fn counted(count: Count) -> PlanCost {
        PlanCost(count.into())
    }

    /// In changes of pair.
    #[must_use]
    pub fn changes(self) -> f64 {
        self.0 as f64 / 10_000.0
    }

    pub(super) const fn times(self, count: usize) -> PlanCost {
        PlanCost(self.0.saturating_mul(count as u64))
    }

    /// What costs so much over a bar, for so many thousandths of one. The longer a chord sounds, the
    /// more it costs; but a short one is heard too, so three tenths of a bar count in any case.
    pub(super) const fn over(self, thousandths: u32) -> PlanCost {
        let counts = (3_000 + 7 * thousandths as u64) / 10;
        PlanCost(self.0.saturating_mul(counts) / 1_000)
    }
}

impl Add for PlanCost {
    type Output = PlanCost;

    fn add(self, other: PlanCost) -> PlanCost {
        PlanCost(self.0.saturating_add(other.0))
    }
}

impl Sum for PlanCost {
    fn sum<I: Iterator<Item = PlanCost>>(costs: I) -> PlanCost {
        costs.fold(PlanCost::ZERO, Add::add)
    }
}

impl fmt::Display for PlanCost {
    /// Changes, with two decimals.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.2}", self.changes())
    }
}
