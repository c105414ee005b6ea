//! The search for the cheapest reading of a line: dynamic programming from note to note.
//!
//! A state is all that the rest of the line needs to know of what was read so far: the field, the
//! pair, the group and which of its members have sounded, which triads have sounded whole, how many
//! notes are free. From each state of a note the next note of a pair lies one to three notes ahead,
//! with free notes between; of two ways to one state the cheaper is kept. A note has few states, so
//! time and memory grow with the line and not faster.

mod state;
mod steps;

use super::candidate::FREE_IN_A_ROW;
use super::line::Line;
use crate::WhichTriad;
use state::{Node, Triads};
use steps::{Origin, Step};

/// What a note is in a reading.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Role {
    /// A note of a field without a pair.
    Unexplained,
    /// A note of a group.
    Grouped {
        /// The field whose chord it speaks.
        field: usize,
        /// Which of the candidates of that field.
        candidate: usize,
        which: WhichTriad,
        /// Does the group begin with it?
        begins: bool,
    },
    /// A free note beside a pair.
    Free,
}

impl Line<'_> {
    /// What each note is in the cheapest reading.
    pub(super) fn read(&self) -> Vec<Role> {
        let mut nodes: Vec<Node> = Vec::new();
        // The first node of each note, and of the note to come.
        let mut firsts: Vec<usize> = vec![0];
        let mut reached: Vec<Node> = Vec::new();
        for to in 0..self.notes.len() {
            for free in 0..=FREE_IN_A_ROW.min(to) {
                let step = Step { to, free };
                match to.checked_sub(free + 1) {
                    None => self.step(Origin::Start, step, &mut reached),
                    Some(from) => {
                        let before = firsts[from]..firsts[from + 1];
                        for (at, node) in before.clone().zip(&nodes[before]) {
                            self.step(Origin::Node(at as u32, *node), step, &mut reached);
                        }
                    }
                }
            }
            reached.sort_unstable();
            reached.dedup_by_key(|node| node.state);
            nodes.append(&mut reached);
            firsts.push(nodes.len());
        }
        let last = firsts.len().checked_sub(2).and_then(|at| firsts.get(at)).copied();
        let ends = (last.unwrap_or(0)..nodes.len())
            .filter_map(|at| Some((self.end_cost(&nodes[at])?, at)));
        self.roles(&nodes, ends.min().map(|(_, at)| at))
    }

    /// The roles of the reading that ends with a node.
    fn roles(&self, nodes: &[Node], last: Option<usize>) -> Vec<Role> {
        let mut roles = vec![Role::Free; self.notes.len()];
        let mut at = last;
        while let Some(node) = at.and_then(|at| nodes.get(at)) {
            roles[node.note as usize] = match node.state.group {
                None => Role::Unexplained,
                Some(group) => Role::Grouped {
                    field: node.state.field as usize,
                    candidate: usize::from(group.candidate),
                    which: group.triad.which(),
                    begins: node.begins,
                },
            };
            at = (node.back != Node::START).then_some(node.back as usize);
        }
        roles
    }

    /// What a reading costs that ends with this node; `None` where it must not end there.
    fn end_cost(&self, node: &Node) -> Option<u32> {
        let Some(group) = node.state.group else { return Some(node.cost) };
        let candidate = self.candidate(node.state.field as usize, group);
        let lacks = group.lacks(self.proof(node.state.field as usize, candidate))?;
        (lacks == Triads::NONE).then_some(node.cost + group.leave_cost())
    }
}

impl Triads {
    fn which(self) -> WhichTriad {
        if self == Triads::SECOND { WhichTriad::Second } else { WhichTriad::First }
    }
}
