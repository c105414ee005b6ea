//! The exact search for cheap chains, stage by stage.

use super::chain::Chain;
use crate::{Neck, Rung};

/// The cheapest chains that take one rung of each stage, at most `count`.
///
/// A step costs the same whatever came before it, so the cheapest chains to a rung go over the
/// cheapest chains to the rungs before it: it is enough to keep `count` for each rung.
pub(super) fn cheapest(neck: &Neck, stages: &[Vec<Rung>], count: usize) -> Vec<Chain> {
    let Some((first, rest)) = stages.split_first() else {
        return Vec::new();
    };
    let alone = |rung: &Rung| vec![Chain::beginning_with(*rung)];
    let mut ending: Vec<Vec<Chain>> = first.iter().map(alone).collect();
    for stage in rest {
        let longer = |rung: &Rung| {
            let chains = ending.iter().flatten();
            best(chains.filter_map(|chain| chain.followed_by(neck, *rung)), count)
        };
        ending = stage.iter().map(longer).collect();
    }
    best(ending.into_iter().flatten(), count)
}

fn best(chains: impl Iterator<Item = Chain>, count: usize) -> Vec<Chain> {
    let mut chains: Vec<Chain> = chains.collect();
    // The sort is stable: of equals the one that ends lower stays first.
    chains.sort_by(|one, other| one.cost_mm().total_cmp(&other.cost_mm()));
    chains.truncate(count);
    chains
}
