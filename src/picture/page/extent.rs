//! Points and rectangles of a page.

/// A point of a page, in millimetres to the right and down from its upper left corner.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// A point so far to the right and down.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    /// The point so much further to the right and down.
    #[must_use]
    pub fn moved(self, by: Point) -> Point {
        Point { x: self.x + by.x, y: self.y + by.y }
    }
}

/// An upright rectangle, in millimetres.
///
/// # Example
///
/// ```
/// use fretloom::picture::page::{Extent, Point};
/// let one = Extent::of([Point::new(0.0, 0.0), Point::new(2.0, 1.0)]).unwrap();
/// let next = Extent { left: 2.0, right: 3.0, ..one };
/// assert!(!one.overlaps(next, 0.0)); // they touch
/// assert!(one.overlaps(next, -0.1));
/// assert_eq!(Extent::of([]), None);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Extent {
    /// Its left edge.
    pub left: f64,
    /// Its upper edge.
    pub top: f64,
    /// Its right edge, not left of the left one.
    pub right: f64,
    /// Its lower edge, not above the upper one.
    pub bottom: f64,
}

impl Extent {
    /// The smallest rectangle around some points; `None` where there are none.
    #[must_use]
    pub fn of(points: impl IntoIterator<Item = Point>) -> Option<Extent> {
        let at = |Point { x, y }| Extent { left: x, top: y, right: x, bottom: y };
        points.into_iter().map(at).reduce(Extent::and)
    }

    /// The smallest rectangle around both.
    #[must_use]
    pub fn and(self, other: Extent) -> Extent {
        Extent {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// The same with so much more on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Extent {
        let Extent { left, top, right, bottom } = self;
        Extent { left: left - by, top: top - by, right: right + by, bottom: bottom + by }
    }

    /// Do the two have a part in common that is larger than `play` both ways?
    #[must_use]
    pub fn overlaps(self, other: Extent, play: f64) -> bool {
        let across = self.right.min(other.right) - self.left.max(other.left);
        let down = self.bottom.min(other.bottom) - self.top.max(other.top);
        across > play && down > play
    }

    /// How wide it is.
    #[must_use]
    pub fn width(self) -> f64 {
        self.right - self.left
    }

    /// How high it is.
    #[must_use]
    pub fn height(self) -> f64 {
        self.bottom - self.top
    }
}
