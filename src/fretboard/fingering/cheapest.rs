//! The cheapest different paths through a line, one after another.

use std::ops::Range;

use super::condition::FingeringCondition;
use super::error::FingeringError;
use super::fingered_line::Fingering;
use super::line_note::LineNote;
use super::onset::Onset;
use super::query::FingeringQuery;
use super::search::{CostToGo, cheapest_of, tolerance};
use crate::Neck;

/// How many beginnings the list goes on from, at most: some 40 MB. A line with more notes has no
/// list; of ten thousand notes it is as long as anybody asks for.
const MOST_NODES: usize = 250_000;

/// Lists paths through a line by their cost, no two with the same places.
///
/// Two paths that differ in fingers alone are one here, at the cost of the better. A search from
/// the beginning keeps, for each row of places so far, what every way to finger them has cost.
/// Since [`CostToGo`] knows exactly what is still to come, each beginning stands for one whole path
/// and for what that costs: no more beginnings are kept than paths are wanted. Of equal ones the
/// longest goes on first, so that a path is finished before the next is begun, however many are
/// equal.
pub(super) struct Cheapest<'a> {
    onsets: &'a [Onset],
    to_go: &'a CostToGo<'a>,
    wanted: usize,
    /// The beginnings that were gone on from.
    nodes: Vec<Node>,
    /// Those to go on from, the next one last; at most as many as are wanted.
    open: Vec<Open>,
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

/// A beginning and what its whole path costs at best.
struct Open {
    total: f64,
    node: Node,
}

impl<'a> Cheapest<'a> {
    /// The `wanted` cheapest, or fewer where there are no more.
    pub(super) fn new(onsets: &'a [Onset], to_go: &'a CostToGo<'a>, wanted: usize) -> Cheapest<'a> {
        let (nodes, open) = (Vec::new(), Vec::new());
        let mut cheapest = Cheapest { onsets, to_go, wanted, nodes, open };
        cheapest.go_on(None, 0.0);
        cheapest
    }

    /// How many beginnings were gone on from.
    pub(super) fn went_on(&self) -> usize {
        self.nodes.len()
    }

    /// Is the line too long to list more?
    pub(super) fn is_spent(&self) -> bool {
        self.went_on() >= MOST_NODES
    }

    /// Adds every choice of places at the onset after `before`, whose path costs `least`.
    fn go_on(&mut self, before: Option<usize>, least: f64) {
        let at = before.map_or(0, |node| self.nodes[node].at + 1);
        let (onsets, to_go) = (self.onsets, self.to_go);
        let onset = &onsets[at].choices;
        for choices in onset.by_places() {
            let costs: Box<[f64]> = choices
                .clone()
                .map(|choice| self.come(before, choice) + onset.cost(choice))
                .collect();
            let totals = choices.clone().zip(&costs);
            let totals = totals.map(|(choice, cost)| cost + to_go.after(at, choice));
            let total = totals.fold(f64::INFINITY, f64::min);
            // The same path made longer costs the same, whatever the last bits say.
            let total = if total <= least + tolerance(least) { least } else { total };
            self.open(Open { total, node: Node { before, at, choices, costs } });
        }
    }

    /// Keeps a beginning, if it is among those that are wanted.
    fn open(&mut self, new: Open) {
        let comes_later = |other: &Open| (other.total, new.node.at) > (new.total, other.node.at);
        let at = self.open.partition_point(comes_later);
        self.open.insert(at, new);
        if self.open.len() > self.wanted {
            self.open.remove(0);
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
    fn trace(&self, last: &Node) -> Vec<usize> {
        let mut path = Vec::new();
        let mut here = Some(last);
        let mut after: Option<(usize, usize)> = None;
        while let Some(node) = here {
            let total = |choice: usize, cost: f64| {
                cost + after.map_or(0.0, |(at, next)| self.to_go.between(at, choice, next))
            };
            let choices = node.choices.clone().zip(&node.costs);
            let totals = choices.map(|(choice, cost)| total(choice, *cost));
            let Some(best) = cheapest_of(totals) else { break };
            let choice = node.choices.start + best;
            path.push(choice);
            after = node.at.checked_sub(1).map(|at| (at, choice));
            here = node.before.map(|before| &self.nodes[before]);
        }
        path.reverse();
        path
    }
}

impl Iterator for Cheapest<'_> {
    type Item = Vec<usize>;

    fn next(&mut self) -> Option<Vec<usize>> {
        while let Some(Open { total, node }) = self.open.pop() {
            if node.at + 1 == self.onsets.len() {
                self.wanted = self.wanted.saturating_sub(1);
                return Some(self.trace(&node));
            }
            if self.is_spent() {
                return None;
            }
            self.nodes.push(node);
            self.go_on(Some(self.nodes.len() - 1), total);
        }
        None
    }
}

impl FingeringQuery {
    /// The `count` cheapest fingerings, no two with the same places, the cheapest first; fewer
    /// where there are no more. Neighbours in this list often differ in one note: for choices that
    /// a player would care about see [`alternatives`](FingeringQuery::alternatives). Of a line too
    /// long to list them within bounds, fewer.
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
            let paths = Cheapest::new(onsets, to_go, count);
            paths.map(|path| to_go.fingering(&path, FingeringCondition::NextCheapest)).collect()
        })
    }
}
