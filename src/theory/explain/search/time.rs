//! When notes sound beside the fields that they belong to.

use std::cmp::Ordering;
use std::ops::Range;

use super::super::cost;
use super::super::line::Line;
use super::state::{Moment, Node};
use super::step::Origin;

impl Line<'_> {
    /// When a note sounds, as one of a field.
    pub(super) fn moment(&self, field: usize, note: usize) -> Moment {
        match self.field_of[note].cmp(&field) {
            Ordering::Less => Moment::Early,
            Ordering::Equal => Moment::OnTime,
            Ordering::Greater => Moment::Late,
        }
    }

    /// Does a note lie so near a field that it may belong to it?
    pub(super) fn is_near(&self, field: usize, note: usize) -> bool {
        self.fields[field].near.contains(&note)
    }

    /// May the reading go on in a field from where it stands? It may pass over one field, all of
    /// whose notes then hung over or come early.
    pub(super) fn follows(&self, origin: Origin, field: usize, to: usize) -> bool {
        if field >= self.fields.len() {
            return false;
        }
        let next = match origin {
            Origin::Start => 0,
            Origin::Node(_, node) if self.is_early_and_unexplained(node) => {
                node.state.field as usize
            }
            Origin::Node(_, node) => node.state.field as usize + 1,
        };
        let passes = |between: &Range<usize>| to == between.start || to == between.end;
        field == next || field == next + 1 && passes(&self.fields[next].notes)
    }

    fn is_early_and_unexplained(&self, node: Node) -> bool {
        let field = node.state.field as usize;
        node.state.group.is_none() && self.moment(field, node.note as usize) == Moment::Early
    }

    /// What it costs that a note does not sound in the time of its chord; `before` is the note of
    /// the same field before it.
    pub(super) fn out_of_time(&self, field: usize, before: Option<Node>, note: usize) -> u32 {
        let there = self.field_of[note];
        if there == field {
            return 0;
        }
        let begins = before.is_none_or(|node| self.field_of[node.note as usize] == field);
        cost::NOTE_OUT_OF_TIME + if begins { cost::OUT_OF_TIME } else { 0 }
    }
}
