//! What is wrong in the player's files.

use crate::library::Problem;

/// The answer of `check`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CheckAnswer {
    /// Every problem, file by file.
    pub problems: Vec<Problem>,
}
