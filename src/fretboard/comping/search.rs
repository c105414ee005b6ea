//! The cheapest way from stage to stage.
//!
//! Stage by stage the search keeps what the cheapest way to each spot costs. Going round, the last
//! stage leads to the first: then it is made from one spot of the first stage after another, those
//! first from which the way without coming home is cheapest, until no other can be cheaper.

use super::stage::{Stage, Steps};

/// A spot for each stage, and what they cost with the steps between them.
pub(super) type Way = (u64, Vec<usize>);

/// Why there is no way.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Stuck {
    /// No way reaches the stage with this index.
    At(usize),
    /// Ways go through, and none comes home.
    Home,
}

/// What no way costs.
const NEVER: u64 = u64::MAX;

/// The cheapest way through stages. `home` are the steps from the last stage to the first, where it
/// goes round. Of ways that cost the same it is always the same one.
pub(super) fn cheapest(stages: &[Stage], home: Option<&Steps>) -> Result<Way, Stuck> {
    let Some(first) = stages.first() else { return Ok((0, Vec::new())) };
    let all: Vec<u64> = first.own.iter().copied().map(u64::from).collect();
    let through = swept(stages, all.clone());
    if let Some(stuck) = through.iter().position(|costs| costs.iter().all(|cost| *cost == NEVER)) {
        return Err(Stuck::At(stuck));
    }
    let Some(home) = home else {
        let ends = through.last().into_iter().flatten().copied();
        let (cost, end) = least(ends).ok_or(Stuck::Home)?;
        return Ok((cost, walked_back(stages, &through, end)));
    };
    let mut best: Option<Way> = None;
    for (bound, start) in by_bound(stages) {
        if best.as_ref().is_some_and(|(cost, _)| *cost <= bound) {
            break;
        }
        let round = round_from(stages, home, &all, start);
        best = match (best, round) {
            (Some(best), Some(round)) if round.0 < best.0 => Some(round),
            (None, round) => round,
            (best, _) => best,
        };
    }
    best.ok_or(Stuck::Home)
}

/// The cheapest way that begins at a spot of the first stage and comes home to it.
fn round_from(stages: &[Stage], home: &Steps, all: &[u64], start: usize) -> Option<Way> {
    let alone = |(spot, cost): (usize, &u64)| if spot == start { *cost } else { NEVER };
    let costs = swept(stages, all.iter().enumerate().map(alone).collect());
    let last = costs.last()?;
    let ends = home.to(start).iter().map(|(from, step)| (plus(last[*from], *step), *from));
    let (cost, end) = ends.min().filter(|(cost, _)| *cost != NEVER)?;
    Some((cost, walked_back(stages, &costs, end)))
}

/// The spots of the first stage from which a way goes through, each after what the cheapest of these
/// costs, in that order.
fn by_bound(stages: &[Stage]) -> Vec<(u64, usize)> {
    let mut ahead: Vec<u64> = Vec::new();
    for (index, stage) in stages.iter().enumerate().rev() {
        let mut costs = match stages.get(index + 1) {
            Some(next) => from_each(stage.own.len(), next, &ahead),
            None => vec![0; stage.own.len()],
        };
        costs.iter_mut().zip(stage.own.iter()).for_each(|(cost, own)| *cost = plus(*cost, *own));
        ahead = costs;
    }
    let mut bounds: Vec<(u64, usize)> = ahead.into_iter().zip(0..).collect();
    bounds.retain(|(bound, _)| *bound != NEVER);
    bounds.sort_unstable();
    bounds
}

/// What the cheapest step from each of so many spots into the next stage costs with all after it.
fn from_each(spots: usize, next: &Stage, ahead: &[u64]) -> Vec<u64> {
    let mut costs = vec![NEVER; spots];
    for (to, after) in ahead.iter().enumerate() {
        for (from, step) in next.steps.to(to) {
            costs[*from] = costs[*from].min(plus(*after, *step));
        }
    }
    costs
}

/// What the cheapest way to each spot of each stage costs, from these of the first one.
fn swept(stages: &[Stage], first: Vec<u64>) -> Vec<Vec<u64>> {
    let mut all = Vec::with_capacity(stages.len());
    all.push(first);
    for (index, stage) in stages.iter().enumerate().skip(1) {
        let before: &Vec<u64> = &all[index - 1];
        let reached = |(spot, own): (usize, &u32)| {
            let ways = stage.steps.to(spot).iter();
            let cheapest = ways.map(|(from, step)| plus(before[*from], *step)).min();
            plus(cheapest.unwrap_or(NEVER), *own)
        };
        let costs = stage.own.iter().enumerate().map(reached).collect();
        all.push(costs);
    }
    all
}

/// The spots of the cheapest way that ends in one.
fn walked_back(stages: &[Stage], costs: &[Vec<u64>], end: usize) -> Vec<usize> {
    let mut spots = vec![end; stages.len()];
    for index in (1..stages.len()).rev() {
        let ways = stages[index].steps.to(spots[index]).iter();
        let ways = ways.map(|(from, step)| (plus(costs[index - 1][*from], *step), *from));
        spots[index - 1] = ways.min().map_or(0, |(_, from)| from);
    }
    spots
}

fn plus(cost: u64, more: u32) -> u64 {
    cost.saturating_add(u64::from(more))
}

fn least(costs: impl Iterator<Item = u64>) -> Option<(u64, usize)> {
    costs.zip(0..).min().filter(|(cost, _)| *cost != NEVER)
}
