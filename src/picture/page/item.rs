//! What is drawn on a page.

use super::extent::{Extent, Point};
use super::font::Face;
use super::music_sign::MusicSign;
use super::segment::Segment;
use super::shade::Shade;

/// Something on a page.
#[derive(Clone, PartialEq, Debug)]
pub enum Item {
    /// A straight line.
    Line(Line),
    /// A shape, filled or drawn around.
    Outline(Outline),
    /// A run of text.
    Text(Text),
    /// A sign of music.
    Sign(MusicSign),
    /// Several things that are one: a note on a neck, with what is said of it.
    Group {
        /// What it is, for whoever cannot see it.
        says: String,
        /// What it consists of.
        items: Vec<Item>,
    },
}

/// Whether a line has gaps.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Dash {
    /// It has none.
    #[default]
    Solid,
    /// It is dashed.
    Dashed,
}

/// A straight line.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Line {
    /// Where it begins.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// How thick it is, in millimetres.
    pub width_mm: f64,
    /// How dark it is.
    pub shade: Shade,
    /// Whether it has gaps.
    pub dash: Dash,
}

impl Line {
    /// A black line without gaps.
    #[must_use]
    pub const fn new(from: Point, to: Point, width_mm: f64) -> Line {
        Line { from, to, width_mm, shade: Shade::Black, dash: Dash::Solid }
    }
}

/// A shape.
#[derive(Clone, PartialEq, Debug)]
pub struct Outline {
    /// How it goes round.
    pub segments: Vec<Segment>,
    /// How it is filled.
    pub fill: Option<Shade>,
    /// How it is drawn around.
    pub stroke: Option<Paint>,
}

/// A pen.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Paint {
    /// How thick, in millimetres.
    pub width_mm: f64,
    /// How dark.
    pub shade: Shade,
}

impl Outline {
    /// Corners joined by straight lines.
    #[must_use]
    pub fn polygon(corners: impl IntoIterator<Item = Point>) -> Outline {
        let step = |(index, corner)| match index {
            0 => Segment::Move(corner),
            _ => Segment::Line(corner),
        };
        let mut segments: Vec<Segment> = corners.into_iter().enumerate().map(step).collect();
        segments.push(Segment::Close);
        Outline { segments, fill: None, stroke: None }
    }

    /// A rectangle.
    #[must_use]
    pub fn rectangle(extent: Extent) -> Outline {
        let Extent { left, top, right, bottom } = extent;
        Outline::polygon([
            Point::new(left, top),
            Point::new(right, top),
            Point::new(right, bottom),
            Point::new(left, bottom),
        ])
    }

    /// A circle.
    #[must_use]
    pub fn circle(centre: Point, radius: f64) -> Outline {
        // A quarter of a circle as a cubic Bézier is nearest to it with control points so far away.
        const BEND: f64 = 0.552_284_749_8;
        let at = |x: f64, y: f64| centre.moved(Point::new(x * radius, y * radius));
        let quarter = |x: f64, y: f64, to_x: f64, to_y: f64| {
            let one = at(x + BEND * to_x, y + BEND * to_y);
            let other = at(to_x + BEND * x, to_y + BEND * y);
            Segment::Curve(one, other, at(to_x, to_y))
        };
        let segments = vec![
            Segment::Move(at(1.0, 0.0)),
            quarter(1.0, 0.0, 0.0, 1.0),
            quarter(0.0, 1.0, -1.0, 0.0),
            quarter(-1.0, 0.0, 0.0, -1.0),
            quarter(0.0, -1.0, 1.0, 0.0),
            Segment::Close,
        ];
        Outline { segments, fill: None, stroke: None }
    }

    /// Filled like that.
    #[must_use]
    pub fn filled(self, shade: Shade) -> Outline {
        Outline { fill: Some(shade), ..self }
    }

    /// Drawn around with a black pen so thick.
    #[must_use]
    pub fn drawn(self, width_mm: f64) -> Outline {
        Outline { stroke: Some(Paint { width_mm, shade: Shade::Black }), ..self }
    }
}

/// A run of text.
#[derive(Clone, PartialEq, Debug)]
pub struct Text {
    /// Where its baseline begins.
    pub at: Point,
    /// What it says.
    pub text: String,
    /// In which face.
    pub face: Face,
    /// How large its font is, in millimetres.
    pub size_mm: f64,
    /// How dark it is.
    pub shade: Shade,
}

impl Text {
    /// Black text that begins there. What could harm whoever shows it is left out.
    #[must_use]
    pub fn new(at: Point, text: &str, face: Face, size_mm: f64) -> Text {
        let text = crate::glyphs::printable_line(text);
        Text { at, text, face, size_mm, shade: Shade::Black }
    }

    /// Black text with its middle there.
    #[must_use]
    pub fn centred(at: Point, text: &str, face: Face, size_mm: f64) -> Text {
        let new = Text::new(at, text, face, size_mm);
        let x = at.x - new.width_mm() / 2.0;
        Text { at: Point { x, ..at }, ..new }
    }

    /// Black text that ends there.
    #[must_use]
    pub fn ending(at: Point, text: &str, face: Face, size_mm: f64) -> Text {
        let new = Text::new(at, text, face, size_mm);
        let x = at.x - new.width_mm();
        Text { at: Point { x, ..at }, ..new }
    }

    /// Text so dark.
    #[must_use]
    pub fn shaded(self, shade: Shade) -> Text {
        Text { shade, ..self }
    }

    /// How wide it is.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        self.face.width_mm(&self.text, self.size_mm)
    }
}

impl Item {
    /// What it covers; `None` where it shows nothing.
    #[must_use]
    pub fn extent(&self) -> Option<Extent> {
        match self {
            Item::Line(line) => {
                let around = Extent::of([line.from, line.to])?;
                let half = line.width_mm / 2.0;
                // A line ends where it ends, and is as thick to both sides.
                let across = if line.from.y == line.to.y { 0.0 } else { half };
                let down = if line.from.x == line.to.x { 0.0 } else { half };
                Some(Extent {
                    left: around.left - across,
                    top: around.top - down,
                    right: around.right + across,
                    bottom: around.bottom + down,
                })
            }
            Item::Outline(outline) => {
                let points = outline.segments.iter().flat_map(|segment| segment.points());
                let pen = outline.stroke.map_or(0.0, |paint| paint.width_mm);
                Some(Extent::of(points)?.grown(pen / 2.0))
            }
            Item::Text(text) => {
                let ink = text.face.ink(&text.text, text.size_mm)?;
                Some(placed(ink, text.at))
            }
            Item::Sign(sign) => sign.extent(),
            Item::Group { items, .. } => items.iter().filter_map(Item::extent).reduce(Extent::and),
        }
    }

    /// The same so much further to the right and down.
    #[must_use]
    pub fn moved(self, by: Point) -> Item {
        match self {
            Item::Line(line) => {
                Item::Line(Line { from: line.from.moved(by), to: line.to.moved(by), ..line })
            }
            Item::Outline(outline) => {
                let segments = outline.segments.iter().map(|segment| segment.moved(by)).collect();
                Item::Outline(Outline { segments, ..outline })
            }
            Item::Text(text) => Item::Text(Text { at: text.at.moved(by), ..text }),
            Item::Sign(sign) => Item::Sign(MusicSign { at: sign.at.moved(by), ..sign }),
            Item::Group { says, items } => {
                let items = items.into_iter().map(|item| item.moved(by)).collect();
                Item::Group { says, items }
            }
        }
    }
}

fn placed(ink: Extent, at: Point) -> Extent {
    let Extent { left, top, right, bottom } = ink;
    Extent { left: left + at.x, top: top + at.y, right: right + at.x, bottom: bottom + at.y }
}
