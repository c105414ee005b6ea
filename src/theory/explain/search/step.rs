//! A step of the search: from where, and to which note.

use super::state::Node;

/// Where a step leads: to a note with so many free notes before it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    pub(super) to: usize,
    pub(super) free: usize,
}

/// Where a step comes from.
#[derive(Clone, Copy, Debug)]
pub(super) enum Origin {
    /// The beginning of the line.
    Start,
    /// What was read so far, and which node that is.
    Node(u32, Node),
}

impl Origin {
    /// The node of what was read so far.
    pub(super) const fn back(self) -> u32 {
        match self {
            Origin::Start => Node::START,
            Origin::Node(back, _) => back,
        }
    }
}
