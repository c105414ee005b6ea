//! Where a pair can be played.

use super::weights::PlanCost;
use crate::TriadPair;

/// A part of a neck, or whatever else a plan keeps to: where each pair lies there, and how far it is
/// from one place to another.
///
/// A plan that is made [within](super::PlanQuery::plans_within) such places chooses one for every chord. A
/// pair is asked for in either order of its triads, and its places are the same.
pub trait PairPlaces {
    /// How many places a pair has; none where it cannot be played.
    fn count(&self, pair: TriadPair) -> usize;

    /// What it costs to go from a place of one pair to a place of another, or of the same.
    fn way(&self, from: (TriadPair, usize), to: (TriadPair, usize)) -> PlanCost;
}
