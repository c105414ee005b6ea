//! Ties and slurs: curves that are thicker in the middle.

use super::chord::Stem;
use super::staff::SPACE;
use crate::picture::page::{Item, Outline, Point, Segment, Shade};

/// Which way a curve bends: away from the stem.
pub(super) fn bends_up(stem: Stem) -> bool {
    stem == Stem::Down
}

/// A curve from one point to another.
pub(super) fn curve(from: Point, to: Point, up: bool) -> Item {
    let run = to.x - from.x;
    let height = (0.4 + run / 40.0).min(1.1) * SPACE;
    let side = if up { -1.0 } else { 1.0 };
    let bend = |share: f64, height: f64| {
        Point::new(from.x + run * share, from.y + (to.y - from.y) * share + side * height)
    };
    let (inner, outer) = (height, height + 0.22 * SPACE);
    let segments = vec![
        Segment::Move(from),
        Segment::Curve(bend(0.25, outer), bend(0.75, outer), to),
        Segment::Curve(bend(0.75, inner), bend(0.25, inner), from),
        Segment::Close,
    ];
    Item::Outline(Outline { segments, fill: Some(Shade::Black), stroke: None })
}
