//! A part of a page that is moved as a whole.

use super::extent::{Extent, Point};
use super::font::Face;
use super::item::{Item, Line, Text};

/// Things drawn around an origin of their own, the upper left corner of the room that they take.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Figure {
    /// The things.
    pub items: Vec<Item>,
    /// How wide the room is, in millimetres.
    pub width_mm: f64,
    /// How high.
    pub height_mm: f64,
}

impl Figure {
    /// An empty one of that size.
    #[must_use]
    pub const fn space(width_mm: f64, height_mm: f64) -> Figure {
        Figure { items: Vec::new(), width_mm, height_mm }
    }

    /// The room that these things take, moved to its origin.
    #[must_use]
    pub fn around(items: Vec<Item>) -> Figure {
        let Some(around) = items.iter().filter_map(Item::extent).reduce(Extent::and) else {
            return Figure::default();
        };
        let by = Point::new(-around.left, -around.top);
        let items = items.into_iter().map(|item| item.moved(by)).collect();
        Figure { items, width_mm: around.width(), height_mm: around.height() }
    }

    /// A line of text with the room that a line of its size takes.
    #[must_use]
    pub fn line(text: &str, face: Face, size_mm: f64) -> Figure {
        let text = Text::new(Point::new(0.0, size_mm), text, face, size_mm);
        let (width_mm, height_mm) = (text.width_mm(), size_mm * LINE);
        Figure { items: vec![Item::Text(text)], width_mm, height_mm }
    }

    /// A line to write on, with the room of a line of text of that size.
    #[must_use]
    pub fn to_fill_in(width_mm: f64, size_mm: f64) -> Figure {
        let at = |x| Point::new(x, size_mm);
        let items = vec![Item::Line(Line::new(at(0.0), at(width_mm), 0.2))];
        Figure { items, width_mm, height_mm: size_mm * LINE }
    }

    /// Text in lines that are no wider than that, unless a single word is.
    #[must_use]
    pub fn paragraph(text: &str, face: Face, size_mm: f64, width_mm: f64) -> Figure {
        let mut lines: Vec<String> = Vec::new();
        for word in text.split(' ').filter(|word| !word.is_empty()) {
            let longer = lines.last().map(|line| format!("{line} {word}"));
            match longer.filter(|line| face.width_mm(line, size_mm) <= width_mm) {
                Some(longer) => {
                    lines.pop();
                    lines.push(longer);
                }
                None => lines.push(word.to_owned()),
            }
        }
        lines.iter().fold(Figure::default(), |above, line| {
            above.over(Figure::line(line, face, size_mm), 0.0)
        })
    }

    /// This one with another below it, so far apart, their left edges aligned.
    #[must_use]
    pub fn over(mut self, below: Figure, gap_mm: f64) -> Figure {
        let top = if self.height_mm > 0.0 { self.height_mm + gap_mm } else { 0.0 };
        self.put(below, Point::new(0.0, top));
        self
    }

    /// This one with another to the right of it, so far apart, their upper edges aligned.
    #[must_use]
    pub fn beside(mut self, right: Figure, gap_mm: f64) -> Figure {
        let left = if self.width_mm > 0.0 { self.width_mm + gap_mm } else { 0.0 };
        self.put(right, Point::new(left, 0.0));
        self
    }

    /// Puts another figure into it, whose room then belongs to it too.
    pub fn put(&mut self, other: Figure, at: Point) {
        self.items.extend(other.items.into_iter().map(|item| item.moved(at)));
        self.width_mm = self.width_mm.max(at.x + other.width_mm);
        self.height_mm = self.height_mm.max(at.y + other.height_mm);
    }
}

/// How far lines of text are apart, in parts of their size.
const LINE: f64 = 1.35;
