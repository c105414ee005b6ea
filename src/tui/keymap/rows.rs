//! The commands of a map with their keys, as reader and map have them.

use crate::tui::key::Key;

/// Every command, and which sections are heard at the same time.
#[derive(Clone, Debug)]
pub(super) struct Rows<C> {
    pub(super) rows: Vec<Row<C>>,
    pub(super) together: Vec<[&'static str; 2]>,
}

/// One command in one section.
#[derive(Clone, Debug)]
pub(super) struct Row<C> {
    /// The section that files have it in.
    pub(super) section: &'static str,
    /// The section in which its keys are heard: the same one, for most.
    pub(super) heard: &'static str,
    pub(super) name: &'static str,
    pub(super) command: C,
    pub(super) keys: Vec<Key>,
    /// Does it keep a key, whatever a file says?
    pub(super) kept: bool,
}

impl<C> Rows<C> {
    /// Can a key be meant for either command? They are told by the sections that hear them.
    pub(super) fn are_heard_together(&self, one: &str, other: &str) -> bool {
        let together: &[[&str; 2]] = &self.together;
        one == other || together.contains(&[one, other]) || together.contains(&[other, one])
    }
}
