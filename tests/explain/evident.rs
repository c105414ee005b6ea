//! Whether the notes of a bar show its pair by themselves, and how short a reading of them is.

use std::collections::BTreeSet;

use fretloom_theory::{PitchClass, TriadPair, WhichTriad};

use crate::generator::{Tune, What};
use crate::line::Line;
use crate::pair_lines::{Group, Meant};

/// The notes of all groups of a tune.
pub(crate) fn in_groups(tune: &Tune) -> BTreeSet<usize> {
    let meant = tune.bars.iter().filter_map(|bar| match &bar.what {
        What::Pair(meant) => Some(meant),
        What::Other(_) => None,
    });
    meant.flat_map(|meant| &meant.groups).flat_map(|group| group.notes.iter().copied()).collect()
}

/// Is each triad whole inside one group, at most a quarter of the notes free, at most two of those
/// in a row, and each of them a step from the next note of a group?
pub(crate) fn is_evident(meant: &Meant, line: &Line, in_groups: &BTreeSet<usize>) -> bool {
    let grouped: usize = meant.groups.iter().map(|group| group.notes.len()).sum();
    let free = meant.free.len();
    [0, 1].into_iter().all(|which| is_whole(which, meant, line))
        && free * 4 <= grouped + free
        && meant.free.iter().all(|note| leads(*note, line, in_groups))
}

fn is_whole(which: usize, meant: &Meant, line: &Line) -> bool {
    let classes = |group: &Group| {
        let classes = group.notes.iter().map(|note| line.pitch(*note).rem_euclid(12));
        classes.collect::<BTreeSet<i32>>().len()
    };
    meant.groups.iter().any(|group| group.which == which && classes(group) == 3)
}

fn leads(free: usize, line: &Line, in_groups: &BTreeSet<usize>) -> bool {
    let next = (free + 1..line.len().min(free + 3)).find(|note| in_groups.contains(note));
    next.is_some_and(|next| (line.pitch(next) - line.pitch(free)).abs() <= 2)
}

/// How many pieces a pair cuts notes into: each stretch of one triad, and each note outside.
pub(crate) fn pieces(pair: TriadPair, notes: &[usize], line: &Line) -> usize {
    let mut pieces = 0;
    let mut last = None;
    for note in notes {
        let of = WhichTriad::with(pair, PitchClass::new(line.pitch(*note)));
        if of.is_none() || of != last {
            pieces += 1;
        }
        last = of;
    }
    pieces
}
