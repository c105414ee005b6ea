//! The conditions under which fingerings are the best.

use std::fmt;

use crate::{HandPosition, StringSet};

/// The condition under which a fingering is the best.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FingeringCondition {
    /// None: it is the cheapest of all.
    Easiest,
    /// The hand shifts as rarely as it can.
    FewestShifts,
    /// Shifts come only where an open string or a pause gives the hand its time.
    EasedShifts,
    /// No open string.
    NoOpenString,
    /// Open strings cost nothing.
    OpenStrings,
    /// Everything on these strings.
    OnStrings(StringSet),
    /// The hand stays in this part of the neck.
    Positions(HandPosition, HandPosition),
    /// Most of it is settled as it was before a change.
    AsBefore,
    /// None: it is the next cheapest after those before it.
    NextCheapest,
}

impl fmt::Display for FingeringCondition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FingeringCondition::Easiest => f.write_str("the easiest of all"),
            FingeringCondition::FewestShifts => f.write_str("the fewest shifts"),
            FingeringCondition::EasedShifts => {
                f.write_str("shifts on open strings and pauses only")
            }
            FingeringCondition::NoOpenString => f.write_str("no open string"),
            FingeringCondition::OpenStrings => f.write_str("open strings wherever they help"),
            FingeringCondition::OnStrings(strings) if strings.len() == 1 => {
                write!(f, "all on string {strings}")
            }
            FingeringCondition::OnStrings(strings) => write!(f, "all on strings {strings}"),
            FingeringCondition::Positions(low, high) => write!(f, "in positions {low} to {high}"),
            FingeringCondition::AsBefore => f.write_str("as before the change"),
            FingeringCondition::NextCheapest => f.write_str("the next easiest"),
        }
    }
}
