//! How fast something is tried next.

use crate::store::{Beats, PracticeRecord, Unit, Verdict};

/// The numbers of a tempo ladder.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct LadderRules {
    /// Where one begins that nothing is known of.
    pub start: Beats,
    /// After how many good tries in a row it goes up.
    pub good: u8,
    /// By how many quarter notes a minute it goes up.
    pub up: u8,
    /// By how many it steps back after a try that was not good.
    pub back: u8,
    /// Where it stops going up.
    pub top: Beats,
}

impl Default for LadderRules {
    /// Three good ones, then eight up, and four back (common practice, no source).
    fn default() -> LadderRules {
        LadderRules { start: beats(60), good: 3, up: 8, back: 4, top: beats(200) }
    }
}

const fn beats(a_minute: u16) -> Beats {
    match Beats::new(a_minute) {
        Some(beats) => beats,
        None => Beats::SLOWEST,
    }
}

/// The tempo of something that is being tried: it rises after some good tries in a row, steps back after one
/// that was not, and ends on a good one.
///
/// # Example
///
/// ```
/// use fretloom::practice::{LadderRules, TempoLadder};
/// use fretloom::store::Verdict::{Again, Got};
///
/// let mut ladder = TempoLadder::from_start(LadderRules::default());
/// for verdict in [Got, Got, Got] {
///     ladder = ladder.after(verdict);
/// }
/// assert_eq!(ladder.tempo().a_minute(), 68);
/// ladder = ladder.after(Again);
/// assert_eq!((ladder.tempo().a_minute(), ladder.may_end()), (64, false));
/// assert!(ladder.after(Got).may_end());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TempoLadder {
    rules: LadderRules,
    tempo: Beats,
    good_in_a_row: u8,
    last: Option<Verdict>,
}

impl TempoLadder {
    /// At the usual beginning.
    #[must_use]
    pub fn from_start(rules: LadderRules) -> TempoLadder {
        TempoLadder::at(rules, rules.start)
    }

    /// Where one goes on with a unit: a step back from where it was got last; before that, where the
    /// player says that the keeper is clean.
    #[must_use]
    pub fn going_on(rules: LadderRules, record: &PracticeRecord, unit: &Unit) -> TempoLadder {
        let got = record.tries_of(unit).rev().filter(|tried| tried.verdict == Verdict::Got);
        let reached = got.filter_map(|tried| tried.tempo).next();
        let back = reached.map(|reached| reached.faster(-i16::from(rules.back)));
        TempoLadder::at(rules, back.or(record.start).unwrap_or(rules.start))
    }

    fn at(rules: LadderRules, tempo: Beats) -> TempoLadder {
        TempoLadder { rules, tempo, good_in_a_row: 0, last: None }
    }

    /// How fast the next try is.
    #[must_use]
    pub fn tempo(self) -> Beats {
        self.tempo
    }

    /// How many good tries there have been in a row at this tempo.
    #[must_use]
    pub fn good_in_a_row(self) -> u8 {
        self.good_in_a_row
    }

    /// May one stop now? Only after a good try, so that the last one is what stays.
    #[must_use]
    pub fn may_end(self) -> bool {
        self.last == Some(Verdict::Got)
    }

    /// The ladder after one more try.
    #[must_use]
    pub fn after(self, verdict: Verdict) -> TempoLadder {
        let LadderRules { good, up, back, top, .. } = self.rules;
        let good_in_a_row = self.good_in_a_row.saturating_add(1);
        let (tempo, good_in_a_row) = match verdict {
            Verdict::Again => (self.tempo.faster(-i16::from(back)), 0),
            // Who begins above the top stays there.
            Verdict::Got if good_in_a_row >= good.max(1) => {
                (self.tempo.faster(i16::from(up)).min(top.max(self.tempo)), 0)
            }
            Verdict::Got => (self.tempo, good_in_a_row),
        };
        TempoLadder { tempo, good_in_a_row, last: Some(verdict), ..self }
    }
}
