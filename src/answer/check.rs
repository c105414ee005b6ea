//! What is wrong in the player's files.

use serde::Serialize;

use crate::library::Problem;

/// The answer to `check`.
#[derive(Clone, PartialEq, Eq, Serialize, Debug)]
pub struct CheckAnswer {
    /// Every problem, file by file.
    pub problems: Vec<Problem>,
}

impl CheckAnswer {
    /// The answer with these problems.
    #[must_use]
    pub fn new(problems: Vec<Problem>) -> CheckAnswer {
        CheckAnswer { problems }
    }
}
