//! The cheapest different paths through a line, one after another.

use std::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;
use std::ops::Range;

use super::condition::FingeringCondition;
use super::error::FingeringError;
use super::fingered_line::Fingering;
use super::line_note::LineNote;
use super::onset::Onset;
use super::query::FingeringQuery;
use super::search::CostToGo;
use crate::Neck;

/// Lists paths through a line by their cost, no two with the same places.
///
/// Two paths that differ in fingers alone are one here, at the cost of the better. A search from
/// the beginning keeps, for each row of places so far, what every way to finger them has cost.
/// Since [`CostToGo`] knows exactly what is still to come, only beginnings of paths that are listed
/// are ever looked at again.
pub(super) struct Cheapest<'a> {
    onsets: &'a [Onset],
    to_go: &'a CostToGo<'a>,
    nodes: Vec<Node>,
    open: BinaryHeap<Reverse<Open>>,
}

/// The places of one onset after those of `before`.
struct Node {
    before: Option<usize>,
    at: usize,
    /// The choices that have these places.
    choices: Range<usize>,
    /// The least that each has cost with all before it.
    costs: Box<[f64]>,
}

/// A beginning to go on from, ordered by what its whole path costs at best and then by age.
struct Open {
    total: f64,
    node: usize,
}

impl<'a> Cheapest<'a> {
    pub(super) fn new(onsets: &'a [Onset], to_go: &'a CostToGo<'a>) -> Cheapest<'a> {
        let mut cheapest = Cheapest { onsets, to_go, nodes: Vec::new(), open: BinaryHeap::new() };
        cheapest.go_on(None);
        cheapest
    }

    /// Adds every choice of places at the onset after `before`.
    fn go_on(&mut self, before: Option<usize>) {
        let at = before.map_or(0, |node| self.nodes[node].at + 1);
        for choices in self.onsets[at].choices.by_places() {
            let costs: Box<[f64]> = choices
                .clone()
                .map(|choice| self.come(before, choice) + self.onsets[at].choices.cost(choice))
                .collect();
            let totals = choices
                .clone()
                .zip(&costs)
                .map(|(choice, cost)| cost + self.to_go.after(at, choice));
            let total = totals.fold(f64::INFINITY, f64::min);
            self.open.push(Reverse(Open { total, node: self.nodes.len() }));
            self.nodes.push(Node { before, at, choices, costs });
        }
    }

    /// The least it has cost to come to `choice` through `before`.
    fn come(&self, before: Option<usize>, choice: usize) -> f64 {
        let Some(before) = before else { return 0.0 };
        let node = &self.nodes[before];
        let costs = node.choices.clone().zip(&node.costs);
        let costs = costs.map(|(from, cost)| cost + self.to_go.between(node.at, from, choice));
        costs.fold(f64::INFINITY, f64::min)
    }

    /// The choices taken, from the end back to the beginning.
    fn trace(&self, node: usize) -> Vec<usize> {
        let mut path = Vec::new();
        let mut here = Some(node);
        let mut after: Option<(usize, usize)> = None;
        while let Some(index) = here {
            let node = &self.nodes[index];
            let total = |choice: usize, cost: f64| {
                cost + after.map_or(0.0, |(at, next)| self.to_go.between(at, choice, next))
            };
            let choices = node.choices.clone().zip(&node.costs);
            let best = choices.map(|(choice, cost)| (choice, total(choice, *cost)));
            let Some((choice, _)) = best.min_by(|a, b| a.1.total_cmp(&b.1)) else { break };
            path.push(choice);
            after = node.at.checked_sub(1).map(|at| (at, choice));
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
            if self.nodes[open.node].at + 1 == self.onsets.len() {
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

impl FingeringQuery {
    /// The `count` cheapest fingerings, no two with the same places, the cheapest first; fewer
    /// where there are no more. Neighbours in this list often differ in one note: for choices that
    /// a player would care about see [`alternatives`](FingeringQuery::alternatives).
    ///
    /// # Errors
    ///
    /// As [`best`](FingeringQuery::best).
    pub fn cheapest(
        &self,
        neck: &Neck,
        line: &[LineNote],
        count: usize,
    ) -> Result<Vec<Fingering>, FingeringError> {
        if line.is_empty() {
            return Ok(Vec::new());
        }
        self.solve(neck, line, |onsets, to_go| {
            let paths = Cheapest::new(onsets, to_go).take(count);
            paths.map(|path| to_go.fingering(&path, FingeringCondition::NextCheapest)).collect()
        })
    }
}
