//! Notes that no pair explains.

use super::super::cost;
use super::super::line::Line;
use super::state::{Group, Moment, Node, State, Triads};
use super::step::{Origin, Step};

impl Line<'_> {
    /// Into a note that no pair explains. Beside a pair such notes may hang over, or come early.
    pub(super) fn enter_unexplained(&self, origin: Origin, step: Step, reached: &mut Vec<Node>) {
        let there = self.field_of[step.to];
        let near = [there.checked_sub(1), Some(there), Some(there + 1)];
        for field in near.into_iter().flatten().filter(|field| *field < self.fields.len()) {
            let Some(cost) = self.to_unexplained(origin, field, step) else { continue };
            let cost = cost + self.denial_cost(origin, field, step.to) + cost::UNEXPLAINED;
            let (state, back) = (State { field: field as u32, group: None }, origin.back());
            reached.push(Node { state, cost, back, note: step.to as u32, begins: false });
        }
    }

    /// What it costs to come to such a note of a field, without the note; `None` where the reading
    /// must not go there.
    fn to_unexplained(&self, origin: Origin, field: usize, step: Step) -> Option<u32> {
        let moment = self.moment(field, step.to);
        let Origin::Node(_, node) = origin else {
            return (step.to == 0 && moment == Moment::OnTime).then_some(0);
        };
        if moment != Moment::OnTime && !self.is_near(field, step.to) {
            return None;
        }
        let Some(group) = node.state.group else {
            return self.on_unexplained(node, field, step);
        };
        let fits = moment != Moment::Late && self.follows(origin, field, step.to);
        fits.then(|| self.leave_pair(node, group, field, step)).flatten()
    }

    /// From another note that no pair explains.
    fn on_unexplained(&self, node: Node, field: usize, step: Step) -> Option<u32> {
        let before = node.state.field as usize;
        let goes_on = field == before + 1
            && self.moment(field, step.to) == Moment::OnTime
            && self.moment(before, node.note as usize) == Moment::OnTime;
        let fits = step.free == 0 && (field == before || goes_on);
        fits.then(|| node.cost + self.out_of_time(field, Some(node), step.to))
    }

    /// From a group. What comes early must not take the proof of the pair with it.
    fn leave_pair(&self, node: Node, group: Group, field: usize, step: Step) -> Option<u32> {
        let left = node.state.field as usize;
        let candidate = self.candidate(left, group);
        let gap = self.gap(step, left, Some(candidate), None)?;
        let free = group.free.saturating_add(gap.here);
        let fits = free <= self.most_free(left, candidate) && gap.there == 0;
        let on_time = self.moment(field, step.to) == Moment::OnTime;
        let shown = on_time || group.on_time == Triads::BOTH;
        let leaves = group.lacks(self.proof(left, candidate)) == Some(Triads::NONE);
        let torn = self.tears_from_unexplained(node, step.to, candidate);
        let torn = if torn { cost::TORN } else { 0 };
        let cost = node.cost + gap.cost + self.leave_cost(left, group) + torn;
        (fits && shown && leaves).then(|| cost + self.out_of_time(field, None, step.to))
    }

    /// What it costs to deny a field the pair that its notes show, told with its first note.
    fn denial_cost(&self, origin: Origin, field: usize, to: usize) -> u32 {
        let is_first = match origin {
            Origin::Start => true,
            Origin::Node(_, node) => self.field_of[node.note as usize] < field,
        };
        let on_time = self.moment(field, to) == Moment::OnTime;
        if on_time && is_first && self.evident[field] { cost::DENIED } else { 0 }
    }
}
