//! The steps of the search: from a note of a group to the next one, with free notes between.

use super::super::cost;
use super::super::line::{Line, RestBefore};
use super::gap::inside;
use super::state::{Group, Node, State, Triads};
use super::step::{Origin, Step};

impl Line<'_> {
    /// All nodes that one step leads to.
    pub(super) fn step(&self, origin: Origin, step: Step, reached: &mut Vec<Node>) {
        self.stay(origin, step, reached);
        self.enter_unexplained(origin, step, reached);
        let there = self.field_of[step.to];
        for field in [there, there + 1] {
            let early = field > there;
            if self.follows(origin, field, step.to) && (!early || self.is_near(field, step.to)) {
                self.enter(origin, field, step, reached);
            }
        }
    }

    /// On in the same field, under the same pair.
    fn stay(&self, origin: Origin, step: Step, reached: &mut Vec<Node>) {
        let Origin::Node(back, node) = origin else { return };
        let Some(group) = node.state.group else { return };
        let field = node.state.field as usize;
        let there = self.field_of[step.to];
        if there > field && !(there == field + 1 && self.is_near(field, step.to)) {
            return;
        }
        let candidate = self.candidate(field, group);
        if there != field && !candidate.is_usual {
            return;
        }
        let Some((which, member)) = candidate.member(self.class(step.to)) else { return };
        let Some(gap) = self.gap(step, field, Some(candidate), Some(candidate)) else { return };
        let free = group.free.saturating_add(gap.here).saturating_add(gap.there);
        if free > self.most_free(field, candidate) {
            return;
        }
        let triad = Triads::of(which);
        let begins =
            triad != group.triad || gap.in_pair || self.rests[step.to] == RestBefore::Silence;
        let mut cost = node.cost + gap.cost + self.out_of_time(field, Some(node), step.to);
        let group = Group { free, ..group };
        let group = if begins {
            cost += cost::GROUP + group.end_cost();
            group.next(triad)
        } else {
            cost += inside(step);
            group
        };
        let group = group.sounding(member, self.moment(field, step.to));
        let state = State { field: field as u32, group: Some(group) };
        reached.push(Node { state, cost, back, note: step.to as u32, begins });
    }
}
