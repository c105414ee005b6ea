//! The first group of a field.

use super::super::candidate::Candidate;
use super::super::cost;
use super::super::line::{Line, RestBefore};
use super::gap::inside;
use super::state::{Carrying, Group, Moment, Node, State, Triads};
use super::step::{Origin, Step};

/// A field that is entered: what that costs, and how many notes of the field are free already.
struct Entered {
    cost: u32,
    free: u8,
    /// The group that goes on, and what the field before lacks, where the pair is the same.
    before: Option<(Group, Triads)>,
    /// May that group go on?
    goes_on: bool,
    /// Do notes lie at the bar line before it that no pair explains?
    after_loose_notes: bool,
}

impl Entered {
    /// Into a field without what was before.
    const fn anew(cost: u32, free: u8) -> Entered {
        Entered { cost, free, before: None, goes_on: false, after_loose_notes: false }
    }
}

impl Line<'_> {
    /// Into the first group of a field.
    pub(super) fn enter(&self, origin: Origin, field: usize, step: Step, reached: &mut Vec<Node>) {
        let moment = self.moment(field, step.to);
        for (at, candidate) in self.candidates[field].iter().enumerate() {
            let Some((which, member)) = candidate.member(self.class(step.to)) else { continue };
            if moment != Moment::OnTime && !candidate.is_usual {
                continue;
            }
            let Some(entered) = self.entered(origin, field, step, candidate) else { continue };
            let group = self.entered_group(&entered, field, at, Triads::of(which));
            let goes_on = entered.goes_on && group.triad == Triads::of(which);
            let cost = entered.cost + self.out_of_time(field, None, step.to);
            let (group, cost) = if goes_on {
                (group, cost + inside(step))
            } else {
                let ended = entered.before.map_or(0, |(before, _)| before.end_cost());
                (group.next(Triads::of(which)), cost + cost::GROUP + ended)
            };
            let group = Some(group.sounding(member, moment));
            let (state, back) = (State { field: field as u32, group }, origin.back());
            reached.push(Node { state, cost, back, note: step.to as u32, begins: !goes_on });
        }
    }

    /// The group with which a field is entered, before its first note there.
    fn entered_group(&self, entered: &Entered, field: usize, at: usize, triad: Triads) -> Group {
        let free = entered.free;
        match entered.before {
            Some((group, owed)) => {
                let whole_before = self.shown(field - 1, group);
                group.carried(&Carrying { candidate: at, whole_before, owed, free })
            }
            None if entered.after_loose_notes => {
                Group { owed: Triads::BOTH, ..Group::first(at, triad, free) }
            }
            None => Group::first(at, triad, free),
        }
    }

    /// How a field is entered under a pair; `None` where it must not be.
    fn entered(
        &self,
        origin: Origin,
        field: usize,
        step: Step,
        candidate: &Candidate,
    ) -> Option<Entered> {
        let Origin::Node(_, node) = origin else {
            return self.enter_from_nothing(0, field, step, candidate);
        };
        let Some(group) = node.state.group else {
            return self.enter_from_unexplained(node, field, step, candidate);
        };
        self.enter_from_pair(node, group, field, step, candidate)
    }

    /// From the beginning, or from notes that no pair explains: all free notes lead in.
    fn enter_from_nothing(
        &self,
        cost: u32,
        field: usize,
        step: Step,
        candidate: &Candidate,
    ) -> Option<Entered> {
        let gap = self.gap(step, field.checked_sub(1).unwrap_or(field), None, Some(candidate))?;
        let free = if field == 0 { gap.here + gap.there } else { gap.there };
        let fits = usize::from(free) == step.free && free <= self.most_free(field, candidate);
        let cost = cost + gap.cost + candidate.cost;
        fits.then_some(Entered::anew(cost, free))
    }

    /// From a note that no pair explains, which may itself hang over or come early.
    fn enter_from_unexplained(
        &self,
        node: Node,
        field: usize,
        step: Step,
        candidate: &Candidate,
    ) -> Option<Entered> {
        let entered = self.enter_from_nothing(node.cost, field, step, candidate)?;
        let moment = self.moment(node.state.field as usize, node.note as usize);
        let torn = self.tears_unexplained(node, field, step.to, candidate);
        let cost = entered.cost + if torn { cost::TORN } else { 0 };
        Some(Entered { cost, after_loose_notes: moment != Moment::OnTime, ..entered })
    }

    /// From a group of the field before.
    fn enter_from_pair(
        &self,
        node: Node,
        group: Group,
        field: usize,
        step: Step,
        candidate: &Candidate,
    ) -> Option<Entered> {
        let left = node.state.field as usize;
        let before = self.candidate(left, group);
        let gap = self.gap(step, left, Some(before), Some(candidate))?;
        let free = group.free.saturating_add(gap.here);
        let fits =
            free <= self.most_free(left, before) && gap.there <= self.most_free(field, candidate);
        let lacks = group.lacks(self.proof(left, before)).filter(|_| fits)?;
        let cost = node.cost + gap.cost + self.leave_cost(left, group);
        if before.pair == candidate.pair {
            // Under one pair no group is out of time.
            let on_time = self.field_of[node.note as usize] == left
                && self.field_of[step.to] == field
                && left + 1 == field;
            if !on_time {
                return None;
            }
            if self.fields[field].follows {
                let may_go_on = !gap.in_pair && self.rests[step.to] != RestBefore::Silence;
                let cost = cost - group.end_cost();
                let entered = self.enter_same_pair(group, lacks, field, cost);
                return Some(Entered { free: gap.there, goes_on: may_go_on, ..entered });
            }
        }
        let torn = self.tears(node, step.to, before, candidate);
        let cost = cost + candidate.cost + if torn { cost::TORN } else { 0 };
        (lacks == Triads::NONE).then_some(Entered::anew(cost, gap.there))
    }

    /// On under the same pair in the field behind. What the one before lacks, this one owes.
    fn enter_same_pair(&self, group: Group, lacks: Triads, field: usize, cost: u32) -> Entered {
        let leans = lacks != Triads::NONE;
        let owed = if leans && !self.may_share(field, group) { Triads::BOTH } else { lacks };
        let cost = cost + cost::SAME_PAIR + if leans { self.lean_cost(field, group) } else { 0 };
        Entered { before: Some((group, owed)), ..Entered::anew(cost, 0) }
    }
}
