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

    /// May a pair be played there over the chord with this index? Everywhere, unless somebody has settled
    /// a place for it.
    fn allows(&self, _chord: usize, _pair: TriadPair, _place: usize) -> bool {
        true
    }

    /// What it costs to go from a place of one pair to a place of another, or of the same.
    fn way(&self, from: (TriadPair, usize), to: (TriadPair, usize)) -> PlanCost;

    /// All ways from places of one pair to places of another: for each place that is gone to, in order,
    /// those from each place. Worth writing where one way alone has to look up the places of its pairs.
    fn ways(&self, from: TriadPair, to: TriadPair) -> Vec<PlanCost> {
        let (before, here) = (self.count(from), self.count(to));
        let ways = |there| (0..before).map(move |place| self.way((from, place), (to, there)));
        (0..here).flat_map(ways).collect()
    }
}
