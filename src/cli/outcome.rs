//! What a run of the program comes to.

use std::process::ExitCode;

use crate::answer::Refusal;
use crate::store::KeepersError;

/// What a run came to.
pub(super) enum Outcome {
    /// Text for standard output. Warnings that do not keep it from being useful have already been
    /// said on standard error.
    Print(String),
    /// The same, for a question that was answered with what is wrong: status 1.
    PrintProblems(String),
    /// It was printed and played, with this status.
    Played(ExitCode),
    /// The screen was shown and left.
    Shown,
}

/// Why a run came to nothing.
pub(super) enum Failure {
    /// The input was at fault: status 1.
    Input(String),
    /// The call was at fault: clap's own words, status 2.
    Usage(clap::Error),
}

impl From<Refusal> for Failure {
    fn from(refusal: Refusal) -> Self {
        Failure::Input(refusal.to_string())
    }
}

impl From<KeepersError> for Failure {
    fn from(error: KeepersError) -> Self {
        Failure::Input(error.to_string())
    }
}
