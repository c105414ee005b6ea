//! Grace notes.

use crate::time::{Quarters, TempoMap};

/// How long a grace note is, in seconds, where there is room before its main note. A quick slide or
/// hammer takes about so long; common practice, no source. More than the 30 ms within which notes
/// count as sounding together.
const GRACE_S: f64 = 0.07;

/// A grace note's place before its main note: which of several it is, and how much room they have.
///
/// Those of a chord share their place.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Grace {
    steps: u32,
    of: u32,
    after: Option<Quarters>,
}

impl Grace {
    /// The grace note `steps` before its main note, 1 for the last one, of `of` in all; `after` is
    /// when the note or rest before them begins, which they may not reach. `None` unless `steps` is
    /// 1 to `of`.
    #[must_use]
    pub const fn new(steps: u32, of: u32, after: Option<Quarters>) -> Option<Grace> {
        if steps == 0 || steps > of { None } else { Some(Grace { steps, of, after }) }
    }

    /// How many steps it comes before its main note, 1 for the last grace note.
    #[must_use]
    pub const fn steps(self) -> u32 {
        self.steps
    }

    /// How many steps all grace notes of the main note take.
    #[must_use]
    pub const fn of(self) -> u32 {
        self.of
    }

    /// How long one step is, in seconds, before a main note at `main_s`.
    pub(super) fn step_s(self, main_s: f64, tempi: &TempoMap) -> f64 {
        let Some(after) = self.after else { return GRACE_S };
        let room_s = (main_s - tempi.seconds_at(after)).max(0.0);
        GRACE_S.min(room_s / (f64::from(self.of) + 1.0))
    }
}
