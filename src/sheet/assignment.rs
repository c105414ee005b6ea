//! Room at the head of a sheet for what a teacher writes there.

use super::idea_look::IdeaLook;
use crate::picture::page::{Face, Figure, Item, Line, Point, Text, points};

const SMALL: f64 = points(9.0);

/// Room for name, date and tempo.
pub(super) fn assignment(look: &IdeaLook, width_mm: f64) -> Figure {
    let height = SMALL * 1.6;
    let mut figure = Figure::space(width_mm, height);
    let name = look.reader.as_ref().map(|reader| reader.name.as_str()).unwrap_or_default();
    let fields = [("name", 0.0, 0.46, name), ("date", 0.49, 0.72, ""), ("tempo", 0.75, 1.0, "")];
    for (word, from, to, filled) in fields {
        let (left, right) = (from * width_mm, to * width_mm);
        let label = Text::new(Point::new(left, SMALL), word, Face::Plain, SMALL);
        let line_from = left + label.width_mm() + 2.0;
        let line =
            Line::new(Point::new(line_from, height - 0.5), Point::new(right, height - 0.5), 0.2);
        figure.items.push(Item::Text(label));
        figure.items.push(Item::Line(line));
        let room = right - line_from - 2.0;
        let size = SMALL.min(room / Face::Bold.width_mm(filled, 1.0).max(0.1));
        let filled = Text::new(Point::new(line_from + 1.0, SMALL), filled, Face::Bold, size);
        figure.items.push(Item::Text(filled));
    }
    figure.items.retain(|item| !matches!(item, Item::Text(text) if text.text.is_empty()));
    figure
}
