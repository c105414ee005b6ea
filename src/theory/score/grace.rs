//! Grace notes.

use crate::time::Quarters;

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

    /// When the note or rest before the grace notes begins, which they may not reach; `None` where
    /// they have all the room they like.
    #[must_use]
    pub const fn after(self) -> Option<Quarters> {
        self.after
    }

    /// How long one step is, in seconds, where the main note begins `room_s` after the note or rest
    /// before; `None` for all the room there is.
    #[must_use]
    pub fn step_s(self, room_s: Option<f64>) -> f64 {
        let share = room_s.map(|room_s| room_s.max(0.0) / (f64::from(self.of) + 1.0));
        share.map_or(GRACE_S, |share| GRACE_S.min(share))
    }
}
