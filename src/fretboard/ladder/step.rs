//! Steps of a climb.

use crate::StringSet;

/// One step of a climb.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Step {
    /// The rung that it leads to.
    pub rung: usize,
    /// The strings that it changes to; none where it stays on the same.
    pub changed_to: Option<StringSet>,
}
