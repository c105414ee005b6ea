//! Beams: stems that end on one line.

use std::ops::Range;

use super::chord::{Stem, StemAt};
use super::set_piece::SetPiece;
use super::staff::{BEAM, BETWEEN_BEAMS, SPACE, STEM};
use crate::picture::page::{Item, Outline, Point, Shade};
use crate::score_file::notation::Beam;

/// The pieces of a voice that are beamed together, in order; a piece without a beam by itself.
pub(super) fn groups(pieces: &[SetPiece]) -> Vec<Range<usize>> {
    let mut groups: Vec<Range<usize>> = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        let goes_on = matches!(piece.beams.first(), Some(Beam::Continue | Beam::End));
        match groups.last_mut().filter(|_| goes_on) {
            Some(group) => group.end = index + 1,
            None => groups.push(index..index + 1),
        }
    }
    groups
}

/// How far a beam rises or falls at most, in staff spaces.
const STEEPEST: f64 = 1.0;
/// How long a stem under a beam is at least, in staff spaces.
const SHORTEST_STEM: f64 = 2.6;

/// Ends the stems of a group on a line; the stems are those that the pieces would have alone.
pub(super) fn align(stems: &mut [StemAt], pieces: &[SetPiece], stem: Stem) {
    let (Some(first), Some(last)) = (stems.first().copied(), stems.last().copied()) else { return };
    let run = last.x - first.x;
    let rise = (last.tip - first.tip).clamp(-STEEPEST * SPACE, STEEPEST * SPACE);
    let slope = if run > 0.0 { rise / run } else { 0.0 };
    let most = pieces.iter().map(SetPiece::flags).max().unwrap_or(1);
    let beams = BEAM + (BEAM + BETWEEN_BEAMS) * f64::from(most.saturating_sub(1));
    // The line as far out as the stem that needs most.
    let line = |at: &StemAt| at.tip - slope * (at.x - first.x);
    let shortest = |at: &StemAt, near: f64| {
        let least = SHORTEST_STEM * SPACE + beams - BEAM;
        let tip = match stem {
            Stem::Up => (near - least).min(at.tip.max(near - 5.0 * SPACE)),
            Stem::Down => (near + least).max(at.tip.min(near + 5.0 * SPACE)),
        };
        line(&StemAt { tip, ..*at })
    };
    let nears = pieces.iter().map(|piece| near_end(piece, stem));
    let lines = stems.iter().zip(nears).map(|(at, near)| shortest(at, near));
    let level = match stem {
        Stem::Up => lines.fold(f64::INFINITY, f64::min),
        Stem::Down => lines.fold(f64::NEG_INFINITY, f64::max),
    };
    stems.iter_mut().for_each(|at| at.tip = level + slope * (at.x - first.x));
}

/// The head that is nearest to the end of its stem.
fn near_end(piece: &SetPiece, stem: Stem) -> f64 {
    let (low, high) = piece.span().unwrap_or_default();
    super::staff::y_of_step(if stem == Stem::Up { high } else { low })
}

/// The beams of a group whose stems have been aligned.
pub(super) fn beams(stems: &[StemAt], pieces: &[SetPiece], stem: Stem) -> Vec<Item> {
    let mut items = Vec::new();
    let most = pieces.iter().map(|piece| piece.beams.len()).max().unwrap_or(0);
    for level in 0..most {
        let mut begun: Option<StemAt> = None;
        for (at, piece) in stems.iter().zip(pieces) {
            let hook = |by: f64| StemAt { x: at.x + by, tip: at.tip + by * slope(stems), ..*at };
            match piece.beams.get(level) {
                Some(Beam::Begin) => begun = Some(*at),
                Some(Beam::End) => {
                    items.extend(begun.take().map(|from| bar(from, *at, level, stem)));
                }
                Some(Beam::ForwardHook) => items.push(bar(*at, hook(SPACE), level, stem)),
                Some(Beam::BackwardHook) => items.push(bar(hook(-SPACE), *at, level, stem)),
                Some(Beam::Continue) | None => {}
            }
        }
    }
    items
}

fn slope(stems: &[StemAt]) -> f64 {
    let (Some(first), Some(last)) = (stems.first(), stems.last()) else { return 0.0 };
    let run = last.x - first.x;
    if run > 0.0 { (last.tip - first.tip) / run } else { 0.0 }
}

/// One beam between two stems, the first level at their ends and others towards the heads.
fn bar(from: StemAt, to: StemAt, level: usize, stem: Stem) -> Item {
    let inward = (BEAM + BETWEEN_BEAMS) * level as f64;
    let (near, far) = match stem {
        Stem::Up => (inward, inward + BEAM),
        Stem::Down => (-inward, -inward - BEAM),
    };
    let (left, right) = (from.x - STEM / 2.0, to.x + STEM / 2.0);
    let corners = [
        Point::new(left, from.tip + near),
        Point::new(right, to.tip + near),
        Point::new(right, to.tip + far),
        Point::new(left, from.tip + far),
    ];
    Item::Outline(Outline::polygon(corners).filled(Shade::Black))
}
