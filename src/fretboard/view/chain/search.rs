//! The exact search for cheap chains, stage by stage.

use super::{Chain, held_mm, step_mm};
use crate::{Neck, Rung};

/// The cheapest chains through all stages, at most `count`.
///
/// Since a step costs the same whatever came before, the cheapest chains to a rung go over the
/// cheapest chains to the rungs before it: it is enough to keep `count` for each.
pub(super) fn cheapest(neck: &Neck, stages: &[Vec<Rung>], count: usize) -> Vec<Chain> {
    let Some((first, rest)) = stages.split_first() else {
        return Vec::new();
    };
    let alone = |rung: &Rung| vec![Chain { rungs: vec![*rung], cost_mm: held_mm(&rung.shape) }];
    let mut ending: Vec<Vec<Chain>> = first.iter().map(alone).collect();
    for stage in rest {
        let longer = |rung: &Rung| best(going_on(neck, ending.iter().flatten(), rung), count);
        ending = stage.iter().map(longer).collect();
    }
    best(ending.into_iter().flatten(), count)
}

/// The chains that can go on to `rung`, with it.
fn going_on<'a>(
    neck: &'a Neck,
    chains: impl Iterator<Item = &'a Chain>,
    rung: &'a Rung,
) -> impl Iterator<Item = Chain> {
    chains.filter_map(move |chain| {
        let last = chain.rungs.last()?;
        let climbs = last.shape.cmp_height(&rung.shape).is_lt() && last.side != rung.side;
        let step_mm = climbs.then(|| step_mm(neck, &last.shape, &rung.shape))?;
        let rungs = [chain.rungs.as_slice(), &[*rung]].concat();
        Some(Chain { rungs, cost_mm: chain.cost_mm + step_mm + held_mm(&rung.shape) })
    })
}

fn best(chains: impl Iterator<Item = Chain>, count: usize) -> Vec<Chain> {
    let mut chains: Vec<Chain> = chains.collect();
    // The sort is stable: of equals the one that ends lower stays first.
    chains.sort_by(|one, other| one.cost_mm.total_cmp(&other.cost_mm));
    chains.truncate(count);
    chains
}
