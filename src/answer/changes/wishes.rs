//! What a player wishes of a plan.

use std::str::FromStr;

use fretloom_theory::{GuideTones, PairKinds, PlanQuery, ReadError};

use super::moment::ChartMoment;
use crate::answer::line::Wanted;

/// What a player wishes of all pairs of a plan, and of some.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct PlanWishes {
    /// Every pair is of triads of these qualities.
    pub kinds: Option<PairKinds>,
    /// What every pair states of its chord.
    pub states: GuideTones,
    /// How many different pairs there are in the whole tune at most.
    pub most_pairs: Option<usize>,
    /// Each section begins with another pair.
    pub contrasts_sections: bool,
    /// The form is played once, so that its end leads nowhere.
    pub ends: bool,
    /// Notes that are not wanted over some chords.
    pub never: Vec<NeverHere>,
}

/// A note that is not wanted over the chord that sounds at a moment; typed `B@5.1`, or `11@5` by what it is
/// over the chord.
///
/// ```
/// use fretloom::answer::NeverHere;
/// let never: NeverHere = "b9@2.3".parse()?;
/// assert_eq!(never.moment.to_string(), "2.3");
/// assert!("b9".parse::<NeverHere>().is_err());
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NeverHere {
    /// The note.
    pub note: Wanted,
    /// When that chord sounds.
    pub moment: ChartMoment,
}

const WHAT: &str = "unwanted note";

impl FromStr for NeverHere {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where the text is not a degree or a note, `@`, and a moment.
    fn from_str(text: &str) -> Result<NeverHere, ReadError> {
        let length = text.chars().count();
        let expected = "@ and the bar, as in B@5 or 11@5.3";
        let (note, moment) = text
            .split_once('@')
            .ok_or_else(|| ReadError::at_character(WHAT, text, length + 1, expected))?;
        let at = note.chars().count() + 2;
        Ok(NeverHere {
            note: note.trim().parse().map_err(|error: ReadError| error.within(WHAT, text, 1))?,
            moment: moment.parse().map_err(|error: ReadError| error.within(WHAT, text, at))?,
        })
    }
}

impl PlanWishes {
    /// Nothing is wished.
    pub(super) const NONE: PlanWishes = PlanWishes {
        kinds: None,
        states: GuideTones::Weighed,
        most_pairs: None,
        contrasts_sections: false,
        ends: false,
        never: Vec::new(),
    };

    /// A query with what is wished of all pairs.
    pub(super) fn asked_of(&self, query: PlanQuery) -> PlanQuery {
        let query = match self.kinds {
            Some(kinds) => query.of_kinds(kinds),
            None => query,
        };
        let query = query.stating(self.states);
        let query = match self.most_pairs {
            Some(most) => query.of_few_pairs(most),
            None => query,
        };
        let query = if self.contrasts_sections { query.contrasting_sections() } else { query };
        if self.ends { query.once() } else { query }
    }
}
