//! Landing on a target: what is played instead of the last notes before it.

use super::approach::Leading;
use super::phrase::{Approach, Target, Timing};
use super::reach::Reach;
use crate::time::Quarters;
use crate::{Pitch, PitchClassSet};

impl Approach {
    /// How many notes come before the target at most.
    pub(super) const fn notes(self) -> usize {
        match self {
            Approach::Any => 0,
            Approach::Step | Approach::HalfStepBelow | Approach::HalfStepAbove => 1,
            Approach::Enclosure => 2,
        }
    }
}

/// When a target sounds, and until when the pattern may go on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct LandingTime {
    pub(super) onset: Quarters,
    pub(super) end: Quarters,
    /// The pattern's notes begin before this.
    pub(super) pattern_until: Quarters,
}

impl LandingTime {
    /// `None` where the moments do not fit.
    pub(super) fn of(target: &Target) -> Option<LandingTime> {
        let end = target.at.checked_add(target.length)?;
        let onset = target.onset()?;
        let pattern_until = onset.min(target.at);
        (onset < end).then_some(LandingTime { onset, end, pattern_until })
    }
}

/// How far a note that is left before an approach may be from it, in semitones, and sound joined.
const JOINED: i32 = 5;

/// The notes before a target, and how well they lead there.
pub(super) struct Landing {
    pub(super) target: Pitch,
    /// The notes of the approach, the last of which comes right before the target.
    pub(super) approach: Vec<Pitch>,
    pub(super) cost: i32,
}

impl Landing {
    /// The best landing on any octave of a target. `before` are the notes of the pattern up to the
    /// target, in order, `None` for one that leads to whatever follows; the last of them are replaced
    /// by the approach, but for what stands in the target's own place. `None` where there is none.
    pub(super) fn best(
        target: &Target,
        before: &[Option<Pitch>],
        scale: PitchClassSet,
        reach: &Reach,
    ) -> Option<Landing> {
        let late = usize::from(matches!(target.timing, Timing::Late(_)));
        let pitches = reach.free_in(target.notes);
        let on = |pitch| Landing::on(pitch, target.approach, before, late, scale, reach);
        pitches.filter_map(on).min_by_key(|landing| landing.cost)
    }

    fn on(
        target: Pitch,
        approach: Approach,
        before: &[Option<Pitch>],
        late: usize,
        scale: PitchClassSet,
        reach: &Reach,
    ) -> Option<Landing> {
        let last = before.last().copied();
        let lead = |leading: Leading, before| leading.note(before, target, scale, reach);
        let notes = match approach {
            Approach::Any if late == 0 => Vec::new(),
            Approach::Step if late == 0 && last.is_some_and(|last| leads_by_step(last, target)) => {
                Vec::new()
            }
            Approach::Any | Approach::Step => {
                let kept = before.len().checked_sub(1 - late)?;
                let kept = kept.checked_sub(1).and_then(|index| before.get(index)).copied();
                vec![lead(Leading::ScaleStep, kept.flatten())?]
            }
            Approach::HalfStepBelow => vec![lead(Leading::HalfStepBelow, None)?],
            Approach::HalfStepAbove => vec![lead(Leading::HalfStepAbove, None)?],
            Approach::Enclosure => {
                let above = reach.free_in(scale).find(|pitch| *pitch > target)?;
                vec![above, lead(Leading::HalfStepBelow, None)?]
            }
        };
        let replaced = notes.len().saturating_sub(late);
        let kept = before.len().checked_sub(replaced)?;
        let kept = before.get(..kept)?.last().copied();
        let first = notes.first().copied().unwrap_or(target);
        let cost = kept.map_or(0, |kept| kept.map_or(1, |kept| leap_cost(kept, first)));
        Some(Landing { target, approach: notes, cost })
    }
}

/// What leads to whatever follows does so by step.
fn leads_by_step(last: Option<Pitch>, target: Pitch) -> bool {
    last.is_none_or(|last| (1..=2).contains(&last.semitones_up_to(target).abs()))
}

/// A repeated note is worth a leap.
fn leap_cost(one: Pitch, other: Pitch) -> i32 {
    match one.semitones_up_to(other).abs() {
        0 => 2 * JOINED,
        near @ ..=JOINED => near,
        far => 3 * far,
    }
}
