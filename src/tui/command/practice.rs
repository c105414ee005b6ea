//! The commands while something is practised.

/// What can be asked for while something is practised.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum PracticeCommand {
    GoOn,
    NotThisTime,
    NextTurn,
    PreviousTurn,
    Stop,
    Click,
    Leave,
}
