//! Steps along an outline.

use super::extent::Point;

/// A step along an outline.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Segment {
    /// Begins there.
    Move(Point),
    /// Goes straight to there.
    Line(Point),
    /// Goes there in a curve with two control points (a cubic Bézier).
    Curve(Point, Point, Point),
    /// Goes back to where it began.
    Close,
}

impl Segment {
    /// The same step so much further to the right and down.
    #[must_use]
    pub fn moved(self, by: Point) -> Segment {
        match self {
            Segment::Move(to) => Segment::Move(to.moved(by)),
            Segment::Line(to) => Segment::Line(to.moved(by)),
            Segment::Curve(one, other, to) => {
                Segment::Curve(one.moved(by), other.moved(by), to.moved(by))
            }
            Segment::Close => Segment::Close,
        }
    }

    /// Its points, control points too.
    pub(super) fn points(self) -> Vec<Point> {
        match self {
            Segment::Move(to) | Segment::Line(to) => vec![to],
            Segment::Curve(one, other, to) => vec![one, other, to],
            Segment::Close => Vec::new(),
        }
    }
}
