//! The cheapest different ways through a line, one after another.

use std::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;
use std::ops::Range;

use super::moment::Moment;
use super::search::Rest;

/// Lists ways through a line by their cost, no two with the same places.
///
/// Two ways that differ in fingers alone are one here, at the cost of the better. A search from
/// the beginning keeps, for each row of places so far, what every way to touch them has cost; since
/// [`Rest`] knows exactly what is still to come, only beginnings of ways that are listed are ever
/// looked at again.
pub(super) struct Cheapest<'a> {
    moments: &'a [Moment],
    rest: &'a Rest<'a>,
    nodes: Vec<Node>,
    open: BinaryHeap<Reverse<Open>>,
}

/// The places of one moment after those of `before`.
struct Node {
    before: Option<usize>,
    at: usize,
    /// The ways to touch these places.
    ways: Range<usize>,
    /// What each has cost, with the node before that it came from best.
    costs: Box<[f64]>,
}

/// A beginning to go on from, by what it costs at best and then by age.
struct Open {
    total: f64,
    node: usize,
}

impl<'a> Cheapest<'a> {
    pub(super) fn new(moments: &'a [Moment], rest: &'a Rest<'a>) -> Cheapest<'a> {
        let mut cheapest = Cheapest { moments, rest, nodes: Vec::new(), open: BinaryHeap::new() };
        cheapest.go_on(None);
        cheapest
    }

    /// Adds every choice of places at the moment after `before`.
    fn go_on(&mut self, before: Option<usize>) {
        let at = before.map_or(0, |node| self.nodes[node].at + 1);
        for ways in self.moments[at].stands.by_places() {
            let costs: Box<[f64]> = ways
                .clone()
                .map(|way| self.come(before, way) + self.moments[at].stands.cost(way))
                .collect();
            let totals =
                ways.clone().zip(&costs).map(|(way, cost)| cost + self.rest.after(at, way));
            let total = totals.fold(f64::INFINITY, f64::min);
            self.open.push(Reverse(Open { total, node: self.nodes.len() }));
            self.nodes.push(Node { before, at, ways, costs });
        }
    }

    /// The least it has cost to come to `way` through `before`.
    fn come(&self, before: Option<usize>, way: usize) -> f64 {
        let Some(before) = before else { return 0.0 };
        let node = &self.nodes[before];
        let costs = node.ways.clone().zip(&node.costs);
        let costs = costs.map(|(from, cost)| cost + self.rest.between(node.at, from, way));
        costs.fold(f64::INFINITY, f64::min)
    }

    /// The ways taken, from the end back to the beginning.
    fn trace(&self, node: usize) -> Vec<usize> {
        let mut path = Vec::new();
        let mut here = Some(node);
        let mut after: Option<(usize, usize)> = None;
        while let Some(index) = here {
            let node = &self.nodes[index];
            let total = |way: usize, cost: f64| {
                cost + after.map_or(0.0, |(at, next)| self.rest.between(at, way, next))
            };
            let ways = node.ways.clone().zip(&node.costs);
            let best = ways.map(|(way, cost)| (way, total(way, *cost)));
            let Some((way, _)) = best.min_by(|a, b| a.1.total_cmp(&b.1)) else { break };
            path.push(way);
            after = node.at.checked_sub(1).map(|at| (at, way));
            here = node.before;
        }
        path.reverse();
        path
    }
}

impl Iterator for Cheapest<'_> {
    type Item = Vec<usize>;

    fn next(&mut self) -> Option<Vec<usize>> {
        while let Some(Reverse(open)) = self.open.pop() {
            if self.nodes[open.node].at + 1 == self.moments.len() {
                return Some(self.trace(open.node));
            }
            self.go_on(Some(open.node));
        }
        None
    }
}

impl Ord for Open {
    fn cmp(&self, other: &Open) -> Ordering {
        self.total.total_cmp(&other.total).then_with(|| other.node.cmp(&self.node))
    }
}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Open) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Open {
    fn eq(&self, other: &Open) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Open {}
