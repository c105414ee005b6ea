//! The exact search for cheap chains, stage by stage.

use super::chain::{Chain, climb_mm, held_mm};
use crate::{Neck, Rung};

/// The cheapest chains that take one rung of each stage, at most `count`.
///
/// A step costs the same whatever came before it, so the cheapest chains to a rung go over the
/// cheapest chains to the rungs before it: it is enough to keep `count` for each rung. A chain is its
/// last link until the end, when the few that are wanted are told link by link.
pub(super) fn cheapest(neck: &Neck, stages: &[Vec<Rung>], count: usize) -> Vec<Chain> {
    let Some((first, rest)) = stages.split_first() else {
        return Vec::new();
    };
    let mut links = Links(Vec::new());
    let mut ending: Vec<Vec<usize>> = Vec::new();
    for rung in first {
        ending.push(vec![links.add(*rung, None, held_mm(&rung.shape))]);
    }
    for stage in rest {
        let mut longer = Vec::with_capacity(stage.len());
        for rung in stage {
            let mut ways = links.ways_to(neck, &ending, rung);
            keep_best(&mut ways, count);
            let ends = ways.into_iter().map(|(cost, before)| links.add(*rung, Some(before), cost));
            longer.push(ends.collect());
        }
        ending = longer;
    }
    let whole = ending.into_iter().flatten();
    let mut whole: Vec<(f64, usize)> =
        whole.filter_map(|end| Some((links.0.get(end)?.cost_mm, end))).collect();
    keep_best(&mut whole, count);
    whole.into_iter().map(|(cost_mm, end)| Chain::of(links.up_to(end), cost_mm)).collect()
}

/// A rung of a chain, which goes on from another link or begins.
struct Link {
    rung: Rung,
    before: Option<usize>,
    /// What the chain costs as far as this.
    cost_mm: f64,
}

struct Links(Vec<Link>);

impl Links {
    fn add(&mut self, rung: Rung, before: Option<usize>, cost_mm: f64) -> usize {
        self.0.push(Link { rung, before, cost_mm });
        self.0.len() - 1
    }

    /// The chains that go on to a rung, each with what it costs then; `ending` has those that end on
    /// the same rung together.
    fn ways_to(&self, neck: &Neck, ending: &[Vec<usize>], rung: &Rung) -> Vec<(f64, usize)> {
        let held_mm = held_mm(&rung.shape);
        let mut ways = Vec::new();
        for ends in ending {
            let last = ends.first().and_then(|end| self.0.get(*end));
            let Some(step_mm) = last.and_then(|last| climb_mm(neck, &last.rung, rung)) else {
                continue;
            };
            let cost = |end: &usize| Some(self.0.get(*end)?.cost_mm + step_mm + held_mm);
            ways.extend(ends.iter().filter_map(|end| Some((cost(end)?, *end))));
        }
        ways
    }

    /// The rungs of a chain in the order of playing.
    fn up_to(&self, end: usize) -> Vec<Rung> {
        let link = |end: usize| self.0.get(end);
        let links = std::iter::successors(link(end), |now| now.before.and_then(link));
        let mut rungs: Vec<Rung> = links.map(|link| link.rung).collect();
        rungs.reverse();
        rungs
    }
}

/// The cheapest of them. The sort is stable: of equals the one that ends lower stays first.
fn keep_best(ways: &mut Vec<(f64, usize)>, count: usize) {
    ways.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    ways.truncate(count);
}
