//! The free notes of a step.

use super::super::arrival::Arrival;
use super::super::candidate::Candidate;
use super::super::cost;
use super::super::line::{Line, RestBefore};
use super::step::Step;

/// What the free notes of a step cost.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gap {
    pub(super) cost: u32,
    /// Is one of them a note of the pair by sound?
    pub(super) in_pair: bool,
    /// How many lie in the field that is left, or in the one that is stayed in.
    pub(super) here: u8,
    /// How many lie in the field that is entered.
    pub(super) there: u8,
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

    /// The free notes of a step. `left` is the field that is left, or stayed in; each note is
    /// judged by the pair of its own field. `None` where one of them must not be free.
    pub(super) fn gap(
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
pub(super) fn inside(step: Step) -> u32 {
    if step.free > 0 { cost::INSIDE } else { 0 }
}
