//! The search for the cheapest reading of a line: dynamic programming from note to note.
//!
//! A state is all that the rest of the line needs to know of what was read so far: the field, the
//! pair, the group and which of its members have sounded, which triads have sounded whole, how many
//! notes are free. From each state of a note the next note of a pair lies one to three notes ahead,
//! with free notes between; of two ways to one state the cheaper is kept. A note has few states, so
//! time and memory grow with the line and not faster.

mod enter;
mod gap;
mod proof;
mod state;
mod step;
mod steps;
mod time;
mod unexplained;

use super::candidate::FREE_IN_A_ROW;
use super::cost;
use super::line::Line;
use crate::WhichTriad;
use state::{Node, Triads};
use step::{Origin, Step};

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
                if !self.leads(step) {
                    continue;
                }
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
        let nodes_of = |note: usize| firsts[note]..firsts[note + 1];
        let count = self.notes.len();
        // The last note of all may be free and lead nowhere.
        let endings = [(1, 0), (2, cost::LAST_FREE)];
        let ends = endings
            .into_iter()
            .filter(|(back, _)| *back <= count)
            .flat_map(|(back, more)| nodes_of(count - back).map(move |at| (at, more)));
        let ends = ends.filter_map(|(at, more)| Some((self.end_cost(&nodes[at], more)?, at)));
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
    /// `last_free` is what a free note after it costs; none follows where that is zero.
    fn end_cost(&self, node: &Node, last_free: u32) -> Option<u32> {
        let Some(group) = node.state.group else {
            return (last_free == 0).then_some(node.cost);
        };
        let candidate = self.candidate(node.state.field as usize, group);
        let most = self.most_free(node.state.field as usize, candidate);
        let free = group.free + u8::from(last_free > 0);
        let last = self.class(self.notes.len() - 1);
        if last_free > 0 && candidate.member(last).is_some() {
            return None;
        }
        let lacks = group.lacks(self.proof(node.state.field as usize, candidate))?;
        (lacks == Triads::NONE && free <= most)
            .then_some(node.cost + self.leave_cost(node.state.field as usize, group) + last_free)
    }
}

impl Triads {
    fn which(self) -> WhichTriad {
        if self == Triads::SECOND { WhichTriad::Second } else { WhichTriad::First }
    }
}
