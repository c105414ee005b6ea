//! The steps of the search: from a note of a group to the next one, with free notes between.

use super::super::arrival::Arrival;
use super::super::candidate::Candidate;
use super::super::cost;
use super::super::line::Line;
use super::state::{Group, Node, State, Triads};
use crate::{Quarters, WhichTriad};

/// Where a step leads: to a note with so many free notes before it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    pub(super) to: usize,
    pub(super) free: usize,
}

/// Where a step comes from.
#[derive(Clone, Copy, Debug)]
pub(super) enum Origin {
    /// The beginning of the line.
    Start,
    /// What was read so far, and which node that is.
    Node(u32, Node),
}

/// What the free notes of a step cost.
#[derive(Clone, Copy, Debug)]
struct Gap {
    cost: u32,
    /// Is one of them a note of the pair by sound?
    in_pair: bool,
    /// How many lie in the field that is left, or in the one that is stayed in.
    here: u8,
    /// How many lie in the field that is entered.
    there: u8,
}

/// A silence that ends a group, in quarters.
const SILENCE: Quarters = Quarters::whole(2);

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
        let begins = triad != group.triad || gap.in_pair || self.is_silent_before(step.to);
        let mut cost = node.cost + gap.cost + self.out_of_time(field, Some(node), step.to);
        let group = Group { free, ..group };
        let group = if begins {
            cost += cost::GROUP + group.end_cost();
            group.next(triad)
        } else {
            group
        };
        let group = group.sounding(member, self.counted(field), self.field_of[step.to] == field);
        let state = State { field: field as u32, group: Some(group) };
        reached.push(Node { state, cost, back, note: step.to as u32, begins });
    }

    /// Into a note that no pair explains.
    fn enter_unexplained(&self, origin: Origin, step: Step, reached: &mut Vec<Node>) {
        let there = self.field_of[step.to];
        let (back, cost) = match origin {
            Origin::Start if step.to == 0 => (Node::START, 0),
            Origin::Start => return,
            Origin::Node(back, node) => match node.state.group {
                None if step.free == 0 => (back, node.cost),
                None => return,
                Some(_) if !self.follows(origin, there, step.to) => return,
                Some(group) => {
                    let field = node.state.field as usize;
                    let candidate = self.candidate(field, group);
                    let Some(gap) = self.gap(step, field, Some(candidate), None) else { return };
                    let free = group.free.saturating_add(gap.here);
                    let full = free > self.most_free(field, candidate) || gap.there > 0;
                    if full || group.lacks(candidate.is_usual) != Some(Triads::NONE) {
                        return;
                    }
                    (back, node.cost + gap.cost + group.end_cost())
                }
            },
        };
        let state = State { field: there as u32, group: None };
        let cost = cost + cost::UNEXPLAINED;
        reached.push(Node { state, cost, back, note: step.to as u32, begins: false });
    }

    /// Into the first group of a field.
    fn enter(&self, origin: Origin, field: usize, step: Step, reached: &mut Vec<Node>) {
        for (at, candidate) in self.candidates[field].iter().enumerate() {
            let Some((which, member)) = candidate.member(self.class(step.to)) else { continue };
            if self.field_of[step.to] != field && !candidate.is_usual {
                continue;
            }
            let entered = match origin {
                Origin::Start => self.enter_from_nothing(0, field, step, candidate),
                Origin::Node(_, node) if node.state.group.is_none() => {
                    self.enter_from_nothing(node.cost, field, step, candidate)
                }
                Origin::Node(_, node) => self.enter_from_pair(node, field, step, candidate),
            };
            let Some(entered) = entered else { continue };
            let triad = Triads::of(which);
            let back = match origin {
                Origin::Start => Node::START,
                Origin::Node(back, _) => back,
            };
            let mut cost = entered.cost + self.out_of_time(field, None, step.to);
            let group = match entered.before {
                Some((group, lacks)) => group.carried(at, lacks, entered.free),
                None => Group::first(at, triad, entered.free),
            };
            let goes_on = entered.goes_on && entered.before.is_some() && group.triad == triad;
            let group = if goes_on {
                group
            } else {
                cost += cost::GROUP + entered.before.map_or(0, |(group, _)| group.end_cost());
                group.next(triad)
            };
            let group =
                group.sounding(member, self.counted(field), self.field_of[step.to] == field);
            let group = if goes_on { Group { lone: false, ..group } } else { group };
            let state = State { field: field as u32, group: Some(group) };
            reached.push(Node { state, cost, back, note: step.to as u32, begins: !goes_on });
        }
    }

    /// From the beginning, or from a note that no pair explains.
    fn enter_from_nothing(
        &self,
        cost: u32,
        field: usize,
        step: Step,
        candidate: &Candidate,
    ) -> Option<Entered> {
        // All free notes lead in.
        let gap = self.gap(step, field.checked_sub(1).unwrap_or(field), None, Some(candidate))?;
        let free = if field == 0 { gap.here + gap.there } else { gap.there };
        let fits = usize::from(free) == step.free && free <= self.most_free(field, candidate);
        let cost = cost + gap.cost + candidate.cost;
        fits.then_some(Entered { cost, free, before: None, goes_on: false })
    }

    /// From a group of the field before, which may have the same pair.
    fn enter_from_pair(
        &self,
        node: Node,
        field: usize,
        step: Step,
        candidate: &Candidate,
    ) -> Option<Entered> {
        let group = node.state.group?;
        let left = node.state.field as usize;
        let before = self.candidate(left, group);
        let gap = self.gap(step, left, Some(before), Some(candidate))?;
        let free = group.free.saturating_add(gap.here);
        let fits =
            free <= self.most_free(left, before) && gap.there <= self.most_free(field, candidate);
        let lacks = group.lacks(before.is_usual).filter(|_| fits)?;
        let cost = node.cost + gap.cost;
        if before.pair == candidate.pair {
            let on_time = self.field_of[node.note as usize] == left
                && self.field_of[step.to] == field
                && left + 1 == field;
            let adjoining = self.fields[field].follows;
            if !on_time {
                return None;
            }
            if adjoining {
                let goes_on = !gap.in_pair && !self.is_silent_before(step.to);
                let cost = cost + cost::SAME_PAIR;
                let before = Some((group, lacks));
                return Some(Entered { cost, free: gap.there, before, goes_on });
            }
        }
        let cost = cost + candidate.cost + group.end_cost();
        let entered = Entered { cost, free: gap.there, before: None, goes_on: false };
        (lacks == Triads::NONE).then_some(entered)
    }

    pub(super) fn candidate(&self, field: usize, group: Group) -> &Candidate {
        &self.candidates[field][usize::from(group.candidate)]
    }

    /// How many notes of a field may be free beside a pair: none beside an unusual one.
    fn most_free(&self, field: usize, candidate: &Candidate) -> u8 {
        if candidate.is_usual { self.fields[field].most_free } else { 0 }
    }

    /// May the reading go on in a field from where it stands? It may pass over one field, all of
    /// whose notes then hung over or come early.
    fn follows(&self, origin: Origin, field: usize, to: usize) -> bool {
        if field >= self.fields.len() {
            return false;
        }
        let next = match origin {
            Origin::Start => 0,
            Origin::Node(_, node) => node.state.field as usize + 1,
        };
        let passes = |between: &std::ops::Range<usize>| to == between.start || to == between.end;
        field == next || field == next + 1 && passes(&self.fields[next].notes)
    }

    /// Does a note lie so near a field that it may belong to it?
    fn is_near(&self, field: usize, note: usize) -> bool {
        self.fields[field].near.contains(&note)
    }

    /// The triads that may sound whole in a field: in an arpeggio one of them only, the same in every
    /// bar.
    fn counted(&self, field: usize) -> Triads {
        if self.fields[field].stacked { Triads::FIRST } else { Triads::BOTH }
    }

    /// What it costs that a note does not sound in the time of its chord; `before` is the note of
    /// the same field before it.
    fn out_of_time(&self, field: usize, before: Option<Node>, note: usize) -> u32 {
        let there = self.field_of[note];
        if there == field {
            return 0;
        }
        let begins = before.is_none_or(|node| self.field_of[node.note as usize] == field);
        cost::NOTE_OUT_OF_TIME + if begins { cost::OUT_OF_TIME } else { 0 }
    }

    /// The free notes of a step. `left` is the field that is left, or stayed in; each note is
    /// judged by the pair of its own field. `None` where one of them must not be free.
    fn gap(
        &self,
        step: Step,
        left: usize,
        pair_left: Option<&Candidate>,
        pair_entered: Option<&Candidate>,
    ) -> Option<Gap> {
        let mut gap = Gap { cost: 0, in_pair: false, here: 0, there: 0 };
        let target = self.notes[step.to].pitch;
        if step.free > 0 && self.is_silent_before(step.to) {
            return None;
        }
        for note in step.to - step.free..step.to {
            let arrival = Arrival::between(self.notes[note].pitch, target);
            let in_left = self.field_of[note] <= left;
            let pair = if in_left { pair_left } else { pair_entered };
            let in_pair = pair.is_some_and(|pair| pair.member(self.class(note)).is_some());
            if !arrival.is_step() || in_pair && (gap.in_pair || arrival != Arrival::HalfStep) {
                return None;
            }
            gap.cost += if in_pair { cost::FREE_IN_PAIR } else { cost::FREE };
            gap.in_pair |= in_pair;
            *if in_left { &mut gap.here } else { &mut gap.there } += 1;
        }
        Some(gap)
    }

    fn is_silent_before(&self, note: usize) -> bool {
        let before = note.checked_sub(1).and_then(|before| self.notes.get(before));
        before.is_some_and(|before| {
            self.notes[note].onset.checked_sub(before.end).is_some_and(|gap| gap >= SILENCE)
        })
    }
}

/// A field that is entered: what that costs, and how many notes of the field are free already.
struct Entered {
    cost: u32,
    free: u8,
    /// The group that goes on, and what the field before lacks, where the pair is the same.
    before: Option<(Group, Triads)>,
    /// May that group go on?
    goes_on: bool,
}

impl Triads {
    fn of(which: WhichTriad) -> Triads {
        match which {
            WhichTriad::First => Triads::FIRST,
            WhichTriad::Second => Triads::SECOND,
        }
    }
}
