//! The numbers and brackets of tuplets.

use super::staff::SPACE;
use crate::picture::page::{Extent, Item, Line, MusicSign, Point, SignKind};

/// Where a tuplet is told: over or under these things.
pub(super) fn tuplet(number: u32, around: Extent, above: bool) -> Vec<Item> {
    let digits: Vec<SignKind> =
        number.to_string().bytes().map(|digit| SignKind::TupletDigit(digit - b'0')).collect();
    let width = digits.iter().map(|sign| sign.advance()).sum::<f64>() * SPACE;
    // The digits stand 1.5 spaces high on their origin.
    let (y, hook, base) = if above {
        let y = around.top - 1.5 * SPACE;
        (y, 0.7 * SPACE, y + 0.75 * SPACE)
    } else {
        let y = around.bottom + 1.5 * SPACE;
        (y, -0.7 * SPACE, y + 0.75 * SPACE)
    };
    let middle = (around.left + around.right) / 2.0;
    let gap = width / 2.0 + 0.4 * SPACE;
    let line = |x1: f64, y1: f64, x2: f64, y2: f64| {
        Item::Line(Line::new(Point::new(x1, y1), Point::new(x2, y2), 0.16 * SPACE))
    };
    let mut items = vec![
        line(around.left, y, around.left, y + hook),
        line(around.right, y, around.right, y + hook),
    ];
    if middle - gap > around.left {
        items.push(line(around.left, y, middle - gap, y));
        items.push(line(middle + gap, y, around.right, y));
    }
    let mut x = middle - width / 2.0;
    for sign in digits {
        items.push(Item::Sign(MusicSign::new(Point::new(x, base), sign, SPACE)));
        x += sign.advance() * SPACE;
    }
    items
}
