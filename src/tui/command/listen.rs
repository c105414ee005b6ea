//! The commands of the keepers screen while it asks what is heard.

/// What can be asked while something is to be named by ear.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "each row of the table says what its command does")]
pub enum ListenCommand {
    GoOn,
    /// Answers with a choice, counted from 0.
    Answer(usize),
    HearAgain,
    HearMine,
    ToList,
}
