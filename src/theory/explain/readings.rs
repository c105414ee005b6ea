//! Other pairs that explain the same notes as shortly.

use super::arrival::Arrival;
use super::candidate::{Candidate, FREE_IN_A_ROW};
use crate::{Pitch, WhichTriad};

/// How many groups and free notes a stretch is read as.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Shape {
    pub(super) groups: usize,
    pub(super) free: usize,
}

/// Does a pair explain these notes, with both triads whole, a quarter of the notes free at most, and
/// no more groups and free notes than `shape`? `next` is the note after them, into which the last
/// ones may lead.
pub(super) fn as_short(
    candidate: &Candidate,
    line: &[Pitch],
    next: Option<Pitch>,
    shape: Option<Shape>,
) -> bool {
    let Some(other) = shape_of(candidate, line, next) else { return false };
    4 * other.free <= line.len()
        && shape.is_none_or(|shape| other.groups + other.free <= shape.groups + shape.free)
}

/// How a pair explains these notes: each note that it has is in a group, and the others are free.
fn shape_of(candidate: &Candidate, line: &[Pitch], next: Option<Pitch>) -> Option<Shape> {
    let mut shape = Shape { groups: 0, free: 0 };
    let mut group: Option<(WhichTriad, u8)> = None;
    let mut whole = [false; 2];
    let mut waiting: Vec<Pitch> = Vec::new();
    for pitch in line {
        let Some((which, member)) = candidate.member(pitch.pitch_class()) else {
            waiting.push(*pitch);
            continue;
        };
        shape.free += lead_to(&mut waiting, *pitch)?;
        let members = match group {
            Some((same, members)) if same == which => members | member,
            _ => {
                shape.groups += 1;
                member
            }
        };
        group = Some((which, members));
        whole[which as usize] |= members == 0b111;
    }
    if !waiting.is_empty() {
        shape.free += lead_to(&mut waiting, next?)?;
    }
    (whole == [true; 2]).then_some(shape)
}

/// How many free notes lead to a note, each by a step; `None` where they do not.
fn lead_to(waiting: &mut Vec<Pitch>, target: Pitch) -> Option<usize> {
    let leads = |pitch: &Pitch| Arrival::between(*pitch, target).is_step();
    let count = waiting.len();
    let fair = count <= FREE_IN_A_ROW && waiting.iter().all(leads);
    waiting.clear();
    fair.then_some(count)
}
