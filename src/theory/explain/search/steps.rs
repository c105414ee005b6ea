//! The steps of the search: from a note of a group to the next one, with free notes between.

use std::cmp::Ordering;

use super::super::arrival::Arrival;
use super::super::candidate::Candidate;
use super::super::cost;
use super::super::line::{Line, RestBefore};
use super::state::{Carrying, Group, Moment, Node, Proof, State, Triads};
use crate::WhichTriad;

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

impl Line<'_> {
    /// May the free notes of a step be free? Each leads by a step, and without a rest of a beat.
    pub(super) fn leads(&self, step: Step) -> bool {
        let target = self.notes[step.to].pitch;
        (step.to - step.free..step.to).all(|note| {
            Arrival::between(self.notes[note].pitch, target).is_step()
                && self.rests[note + 1] < RestBefore::Quarter
        })
    }

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

    /// Into a note that no pair explains.
    fn enter_unexplained(&self, origin: Origin, step: Step, reached: &mut Vec<Node>) {
        let there = self.field_of[step.to];
        for field in [there.wrapping_sub(1), there, there + 1] {
            let Some((back, cost)) = self.to_unexplained(origin, field, step) else { continue };
            let cost = cost + self.silence_cost(origin, field, step.to);
            let state = State { field: field as u32, group: None };
            let cost = cost + cost::UNEXPLAINED;
            reached.push(Node { state, cost, back, note: step.to as u32, begins: false });
        }
    }

    /// What leads to a note of a field that no pair explains, and what that costs without the note.
    /// Beside a pair such notes may hang over, or come early.
    fn to_unexplained(&self, origin: Origin, field: usize, step: Step) -> Option<(u32, u32)> {
        let moment = self.moment(field, step.to);
        let Origin::Node(back, node) = origin else {
            let first = step.to == 0 && moment == Moment::OnTime;
            return first.then_some((Node::START, 0));
        };
        let before = node.state.field as usize;
        let near =
            moment == Moment::OnTime || field < self.fields.len() && self.is_near(field, step.to);
        let Some(group) = node.state.group else {
            let goes_on = field == before + 1
                && moment == Moment::OnTime
                && self.field_of[node.note as usize] == before;
            let fits = step.free == 0 && near && (field == before || goes_on);
            let cost = node.cost + self.out_of_time(field, Some(node), step.to);
            return fits.then_some((back, cost));
        };
        if !near || moment == Moment::Late || !self.follows(origin, field, step.to) {
            return None;
        }
        let candidate = self.candidate(before, group);
        let gap = self.gap(step, before, Some(candidate), None)?;
        let free = group.free.saturating_add(gap.here);
        let full = free > self.most_free(before, candidate) || gap.there > 0;
        let shown = moment == Moment::OnTime || group.on_time == Triads::BOTH;
        let leaves = group.lacks(self.proof(before, candidate)) == Some(Triads::NONE);
        let cost = node.cost + gap.cost + self.leave_cost(before, group);
        let cost = cost + self.out_of_time(field, None, step.to);
        (!full && shown && leaves).then_some((back, cost))
    }

    /// What it costs to call a field unexplained, with its first note.
    fn silence_cost(&self, origin: Origin, field: usize, to: usize) -> u32 {
        let is_first = match origin {
            Origin::Start => true,
            Origin::Node(_, node) => self.field_of[node.note as usize] < field,
        };
        let on_time = self.moment(field, to) == Moment::OnTime;
        if on_time && is_first && self.evident[field] { cost::DENIED } else { 0 }
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
                    let entered = self.enter_from_nothing(node.cost, field, step, candidate);
                    let moment = self.moment(node.state.field as usize, node.note as usize);
                    let loose = moment != Moment::OnTime;
                    let torn = self.tears_unexplained(node, field, step.to, candidate);
                    let cost = if torn { cost::TORN } else { 0 };
                    entered.map(|entered| Entered {
                        cost: entered.cost + cost,
                        after_loose_notes: loose,
                        ..entered
                    })
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
                Some((group, owed)) => {
                    let whole_before = self.shown(field - 1, group);
                    let free = entered.free;
                    group.carried(&Carrying { candidate: at, whole_before, owed, free })
                }
                None if entered.after_loose_notes => {
                    Group { owed: Triads::BOTH, ..Group::first(at, triad, entered.free) }
                }
                None => Group::first(at, triad, entered.free),
            };
            let goes_on = entered.goes_on && entered.before.is_some() && group.triad == triad;
            let group = if goes_on {
                cost += inside(step);
                group
            } else {
                cost += cost::GROUP + entered.before.map_or(0, |(before, _)| before.end_cost());
                group.next(triad)
            };
            let group = group.sounding(member, self.moment(field, step.to));
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
        fits.then_some(Entered {
            cost,
            free,
            before: None,
            goes_on: false,
            after_loose_notes: false,
        })
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
        let lacks = group.lacks(self.proof(left, before)).filter(|_| fits)?;
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
                let goes_on = !gap.in_pair && self.rests[step.to] != RestBefore::Silence;
                let cost = cost + cost::SAME_PAIR + self.leave_cost(left, group) - group.end_cost();
                let cost =
                    cost + if lacks == Triads::NONE { 0 } else { self.lean_cost(field, group) };
                let alone = lacks != Triads::NONE && !self.may_share(field, group);
                let before = Some((group, if alone { Triads::BOTH } else { lacks }));
                return Some(Entered {
                    cost,
                    free: gap.there,
                    before,
                    goes_on,
                    after_loose_notes: false,
                });
            }
        }
        let cost = cost + candidate.cost + self.leave_cost(left, group);
        let cost = cost + if self.tears(node, step.to, before, candidate) { cost::TORN } else { 0 };
        let entered = Entered {
            cost,
            free: gap.there,
            before: None,
            goes_on: false,
            after_loose_notes: false,
        };
        (lacks == Triads::NONE).then_some(entered)
    }

    /// Does a note hang over that the group after it has too, or come early that the one before has?
    fn tears(&self, from: Node, to: usize, left: &Candidate, entered: &Candidate) -> bool {
        let note = from.note as usize;
        let triad = |candidate: &Candidate, note| candidate.member(self.class(note)).map(|m| m.0);
        let one_triad = |candidate| {
            let triads = (triad(candidate, note), triad(candidate, to));
            triads.0.is_some() && triads.0 == triads.1
        };
        let left_field = from.state.field as usize;
        // A rest between them keeps them apart.
        if self.rests[to] >= RestBefore::Eighth {
            return false;
        }
        match (self.moment(left_field, note), self.moment(left_field, to)) {
            (Moment::Late, _) => one_triad(entered),
            (_, Moment::OnTime) => one_triad(left),
            _ => false,
        }
    }

    /// Does a group come early out of notes of its own triad, which no pair explains?
    fn tears_unexplained(&self, from: Node, field: usize, to: usize, entered: &Candidate) -> bool {
        let triad = |note| entered.member(self.class(note)).map(|(which, _)| which);
        self.moment(field, to) == Moment::Early
            && self.rests[to] < RestBefore::Eighth
            && triad(from.note as usize) == triad(to)
    }

    pub(super) fn candidate(&self, field: usize, group: Group) -> &Candidate {
        &self.candidates[field][usize::from(group.candidate)]
    }

    /// How many notes of a field may be free beside a pair: none beside an unusual one.
    pub(super) fn most_free(&self, field: usize, candidate: &Candidate) -> u8 {
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
            Origin::Node(_, node) if self.is_early_and_unexplained(node) => {
                node.state.field as usize
            }
            Origin::Node(_, node) => node.state.field as usize + 1,
        };
        let passes = |between: &std::ops::Range<usize>| to == between.start || to == between.end;
        field == next || field == next + 1 && passes(&self.fields[next].notes)
    }

    fn is_early_and_unexplained(&self, node: Node) -> bool {
        let field = node.state.field as usize;
        node.state.group.is_none() && self.moment(field, node.note as usize) == Moment::Early
    }

    /// Does a note lie so near a field that it may belong to it?
    fn is_near(&self, field: usize, note: usize) -> bool {
        self.fields[field].near.contains(&note)
    }

    /// May a field and the one before, which ends with this group, show one triad each? Under one
    /// chord they may, and in one bar where nothing else sounds in the first; else they are the
    /// arpeggios of two chords.
    fn may_share(&self, field: usize, group: Group) -> bool {
        let field = &self.fields[field];
        field.same_chord || field.same_bar && !group.mixed
    }

    /// What it costs to leave a field with a group: its end, and what the field has not shown itself.
    pub(super) fn leave_cost(&self, field: usize, group: Group) -> u32 {
        let leans = group.whole != Triads::BOTH && group.whole_before != Triads::NONE;
        group.leave_cost() + if leans { self.lean_cost(field, group) } else { 0 }
    }

    /// What it costs that a field and the one before show a pair together.
    fn lean_cost(&self, field: usize, group: Group) -> u32 {
        let field = &self.fields[field];
        match (field.same_chord || field.same_bar, group.free) {
            (true, _) => 0,
            (false, 0) => cost::SHOWN_BESIDE,
            (false, _) => cost::SHOWN_BESIDE + cost::LED_BESIDE,
        }
    }

    /// How a field has to show the pair of a candidate.
    pub(super) fn proof(&self, field: usize, candidate: &Candidate) -> Proof {
        match (self.fields[field].stacked, candidate.is_usual) {
            (true, _) => Proof::Never,
            (false, true) => Proof::Beside,
            (false, false) => Proof::Alone,
        }
    }

    /// The triads of a field that count in the next one; an arpeggio shows none.
    fn shown(&self, field: usize, group: Group) -> Triads {
        if self.fields[field].stacked { Triads::NONE } else { group.whole }
    }

    /// When a note sounds, as one of a field.
    fn moment(&self, field: usize, note: usize) -> Moment {
        match self.field_of[note].cmp(&field) {
            Ordering::Less => Moment::Early,
            Ordering::Equal => Moment::OnTime,
            Ordering::Greater => Moment::Late,
        }
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
        if step.free > 0 && self.rests[step.to] >= RestBefore::Eighth {
            gap.cost += cost::ACROSS_REST;
        }
        for note in step.to - step.free..step.to {
            let arrival = Arrival::between(self.notes[note].pitch, target);
            let in_left = self.field_of[note] <= left;
            let pair = if in_left { pair_left } else { pair_entered };
            let in_pair = pair.is_some_and(|pair| pair.member(self.class(note)).is_some());
            if in_pair && (gap.in_pair || arrival != Arrival::HalfStep) {
                return None;
            }
            gap.cost += if in_pair { cost::FREE_IN_PAIR } else { cost::FREE };
            gap.in_pair |= in_pair;
            *if in_left { &mut gap.here } else { &mut gap.there } += 1;
        }
        Some(gap)
    }
}

/// What free notes within a group cost beyond their own cost.
fn inside(step: Step) -> u32 {
    if step.free > 0 { cost::INSIDE } else { 0 }
}

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

impl Triads {
    fn of(which: WhichTriad) -> Triads {
        match which {
            WhichTriad::First => Triads::FIRST,
            WhichTriad::Second => Triads::SECOND,
        }
    }
}
