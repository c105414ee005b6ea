//! What a player wishes of a plan.

use fretloom_theory::{ChartBeat, Degree, NoteName, PairKinds, PitchClass, PlanQuery};

/// What a player wishes of all pairs of a plan, and of some.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct PlanWishes {
    /// Every pair is of triads of these qualities.
    pub kinds: Option<PairKinds>,
    /// Every pair states third and seventh.
    pub states_guide_tones: bool,
    /// Each section begins with another pair.
    pub contrasts_sections: bool,
    /// The form is played once, so that its end leads nowhere.
    pub ends: bool,
    /// Notes that are not wanted over some chords.
    pub never: Vec<NeverHere>,
}

/// A note that is not wanted over the chord that sounds at a beat of a heard bar.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NeverHere {
    /// The note.
    pub note: UnwantedNote,
    /// The bar, counted from 1; 0 is a pick-up.
    pub bar: u64,
    /// The beat.
    pub beat: ChartBeat,
}

/// A note by its name, or by what it is over its chord.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum UnwantedNote {
    /// Its name.
    Name(NoteName),
    /// What it is over the chord.
    Degree(Degree),
}

impl UnwantedNote {
    /// The note over a chord with this root.
    pub(super) fn over(self, root: PitchClass) -> PitchClass {
        match self {
            UnwantedNote::Name(name) => name.pitch_class(),
            UnwantedNote::Degree(degree) => degree.over(root),
        }
    }
}

impl PlanWishes {
    /// A query with what is wished of all pairs.
    pub(super) fn asked_of(&self, query: PlanQuery) -> PlanQuery {
        let query = match self.kinds {
            Some(kinds) => query.of_kinds(kinds),
            None => query,
        };
        let query = if self.states_guide_tones { query.stating_guide_tones() } else { query };
        let query = if self.contrasts_sections { query.contrasting_sections() } else { query };
        if self.ends { query.once() } else { query }
    }
}
