//! Why a chart has no plan as it is asked for.

use std::fmt;

use fretloom_theory::ChartBeat;

use crate::words::counted;

/// What a chart, or what is wanted of its plan, lacks.
#[derive(Clone, PartialEq, Debug)]
#[non_exhaustive]
pub enum PlanRefusal {
    /// A chart that is longer than a line may be.
    TooManyBars {
        /// How many bars are heard.
        bars: u64,
        /// How many a line is made over.
        most: u32,
    },
    /// A chart without a chord that pairs could be planned for.
    NothingToPlan,
    /// A text that settles neither a pair nor a scale for a chord.
    NothingSettled {
        /// The text as given.
        text: String,
    },
    /// A moment that a chart does not have.
    MomentNotInChart {
        /// The moment as it is typed.
        moment: String,
        /// The number of the last bar.
        last: String,
    },
    /// A scale without a root where no chord gives it one.
    NoChordThere {
        /// The moment as it is typed.
        moment: String,
    },
    /// A chord of a chart for which no pair does what is wanted.
    NoPairHere {
        /// The chord.
        chord: String,
        /// The number of its bar, as it is heard.
        bar: String,
        /// On which beat it begins.
        beat: ChartBeat,
        /// What none of its pairs does.
        lacks: PairLacks,
    },
    /// Fewer pairs than a chart can be played with, as far as was found.
    TooFewPairs {
        /// How many are wanted at most.
        most: usize,
        /// How many are enough.
        enough: usize,
    },
}

/// What no pair of a chord does.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PairLacks {
    /// What is wished of it.
    Wishes,
    /// To lie in the part of the neck that is wanted.
    Places,
}

impl fmt::Display for PlanRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PlanRefusal::TooManyBars { bars, most } => write!(
                f,
                "the chart has {bars} bars as it is heard: expected {most} at most to play over"
            ),
            PlanRefusal::NothingToPlan => f.write_str(
                "there is no chord in the chart to plan for: expected one, as in | Dm7 |",
            ),
            PlanRefusal::NothingSettled { text } => write!(
                f,
                "cannot settle \"{text}\": expected a pair or a scale, @ and the bar, as in \
                 \"F & G@5\" or altered@5.3"
            ),
            PlanRefusal::MomentNotInChart { moment, last } => write!(
                f,
                "the chart has no beat {moment}: expected a beat of a bar up to {last}, as it is heard"
            ),
            PlanRefusal::NoChordThere { moment } => write!(
                f,
                "no chord sounds at {moment} that would give the scale its root: expected a scale \
                 with its root, as in \"G altered\", or another beat"
            ),
            PlanRefusal::NoPairHere { chord, bar, beat, lacks } => write!(
                f,
                "{chord} in bar {bar}, beat {beat}, has no pair {}",
                match lacks {
                    PairLacks::Wishes => "that does all that is wished: expected fewer wishes",
                    PairLacks::Places =>
                        "in that part of the neck: expected more frets or other strings",
                }
            ),
            PlanRefusal::TooFewPairs { most, enough } => write!(
                f,
                "no plan was found with {} at most: expected {enough} or more, or fewer wishes",
                counted(*most, "different pair")
            ),
        }
    }
}
