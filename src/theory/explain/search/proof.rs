//! How a field shows its pair, and what that costs.

use super::super::candidate::Candidate;
use super::super::cost;
use super::super::line::{Line, RestBefore};
use super::state::{Group, Moment, Node, Proof, Triads};

impl Line<'_> {
    pub(super) fn candidate(&self, field: usize, group: Group) -> &Candidate {
        &self.candidates[field][usize::from(group.candidate)]
    }

    /// How many notes of a field may be free beside a pair: none beside an unusual one.
    pub(super) fn most_free(&self, field: usize, candidate: &Candidate) -> u8 {
        if candidate.is_usual { self.fields[field].most_free } else { 0 }
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
    pub(super) fn shown(&self, field: usize, group: Group) -> Triads {
        if self.fields[field].stacked { Triads::NONE } else { group.whole }
    }

    /// May a field and the one before, which ends with this group, show one triad each? Under one
    /// chord they may, and in one bar where nothing else sounds in the first; else they are the
    /// arpeggios of two chords.
    pub(super) fn may_share(&self, field: usize, group: Group) -> bool {
        let field = &self.fields[field];
        field.same_chord || field.same_bar && !group.mixed
    }

    /// What it costs to leave a field with a group: its end, and what the field has not shown itself.
    pub(super) fn leave_cost(&self, field: usize, group: Group) -> u32 {
        let leans = group.whole != Triads::BOTH && group.whole_before != Triads::NONE;
        group.leave_cost() + if leans { self.lean_cost(field, group) } else { 0 }
    }

    /// What it costs that a field and the one before show a pair together.
    pub(super) fn lean_cost(&self, field: usize, group: Group) -> u32 {
        let field = &self.fields[field];
        match (field.same_chord || field.same_bar, group.free) {
            (true, _) => 0,
            (false, 0) => cost::SHOWN_BESIDE,
            (false, _) => cost::SHOWN_BESIDE + cost::LED_BESIDE,
        }
    }

    /// Does a note hang over that the group after it has too, or come early that the one before has?
    pub(super) fn tears(
        &self,
        from: Node,
        to: usize,
        left: &Candidate,
        entered: &Candidate,
    ) -> bool {
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
    pub(super) fn tears_unexplained(
        &self,
        from: Node,
        field: usize,
        to: usize,
        entered: &Candidate,
    ) -> bool {
        self.moment(field, to) == Moment::Early && self.joins(from, to, entered)
    }

    /// Does a group hang over into notes of its own triad, which no pair explains?
    pub(super) fn tears_from_unexplained(&self, from: Node, to: usize, left: &Candidate) -> bool {
        let moment = self.moment(from.state.field as usize, from.note as usize);
        moment == Moment::Late && self.joins(from, to, left)
    }

    /// Are two notes of one triad, without a rest between them?
    fn joins(&self, from: Node, to: usize, candidate: &Candidate) -> bool {
        let triad = |note| candidate.member(self.class(note)).map(|(which, _)| which);
        self.rests[to] < RestBefore::Eighth && triad(from.note as usize) == triad(to)
    }
}
