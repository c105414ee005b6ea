//! Notes that lead to the next one.

use super::reach::Reach;
use crate::{Pitch, PitchClassSet};

/// A note that leads to the next one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Leading {
    HalfStepBelow,
    HalfStepAbove,
    /// The scale note next to the one that follows, on the side of the one before.
    ScaleStep,
}

impl Leading {
    /// The note that leads from `before` to `after`; `None` where it may not be used.
    pub(super) fn note(
        self,
        before: Option<Pitch>,
        after: Pitch,
        scale: PitchClassSet,
        reach: &Reach,
    ) -> Option<Pitch> {
        match self {
            Leading::HalfStepBelow => after.up(-1).filter(|pitch| reach.holds_free(*pitch)),
            Leading::HalfStepAbove => after.up(1).filter(|pitch| reach.holds_free(*pitch)),
            Leading::ScaleStep => scale_step(before, after, scale, reach),
        }
    }
}

/// The scale note below `after` where the line comes from below, else the one above; the other one
/// where that would be the note before again, or may not be used.
fn scale_step(
    before: Option<Pitch>,
    after: Pitch,
    scale: PitchClassSet,
    reach: &Reach,
) -> Option<Pitch> {
    let below = reach.free_in(scale).rev().find(|pitch| *pitch < after);
    let above = reach.free_in(scale).find(|pitch| *pitch > after);
    let (near, far) =
        if before.is_none_or(|before| before < after) { (below, above) } else { (above, below) };
    near.filter(|near| Some(*near) != before).or(far).or(near)
}
