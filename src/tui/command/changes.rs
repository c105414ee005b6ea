//! The commands of the changes screen.

/// What can be asked of the changes screen while nothing lies over it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum ChangesCommand {
    ToExplore,
    EditBar,
    EditChords,
    EditWhere,
    NextChord,
    PreviousChord,
    NextRow,
    PreviousRow,
    NextSection,
    PreviousSection,
    FirstBar,
    LastBar,
    NextPair,
    PreviousPair,
    NextScale,
    PreviousScale,
    Pin,
    Release,
    OtherPlan,
    PlanBefore,
    NextStrings,
    PreviousStrings,
    NextView,
    NextChoice,
    PreviousChoice,
    MoreBars,
    FewerBars,
    Labels,
}
