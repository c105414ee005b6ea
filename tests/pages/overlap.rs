//! Nothing on a page lies on something else.
//!
//! Text may lie on a line only where something white, or a mark, hides the line under it. The parts of
//! one group, as a mark and its label are, belong together.

use fretloom::picture::page::{Extent, Item, Outline, Page, Shade, SignKind};

/// Something that may not be covered.
struct Thing {
    extent: Extent,
    says: String,
    /// Its place in the order of drawing.
    order: usize,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Text,
    Sign,
    Group,
    Line,
    Cover,
}

/// How much two things may share by the way that they are measured, in millimetres.
const PLAY: f64 = 0.06;

/// What lies on something else on a page, in words.
pub(crate) fn overlaps(page: &Page) -> Vec<String> {
    let things: Vec<Thing> =
        page.items.iter().enumerate().filter_map(|(order, item)| thing(order, item)).collect();
    let mut found = Vec::new();
    let (width, height) = page.paper.size_mm();
    for thing in &things {
        let Extent { left, top, right, bottom } = thing.extent;
        if left < 0.0 || top < 0.0 || right > width || bottom > height {
            found.push(format!("{} leaves the paper: {:?}", thing.says, thing.extent));
        }
    }
    for (index, one) in things.iter().enumerate() {
        for other in &things[index + 1..] {
            if may_not_meet(one.kind, other.kind)
                && one.extent.overlaps(other.extent, PLAY)
                && !is_covered(&things, one, other)
            {
                found.push(format!(
                    "{} lies on {} at {:?} and {:?}",
                    other.says, one.says, other.extent, one.extent
                ));
            }
        }
    }
    found
}

fn thing(order: usize, item: &Item) -> Option<Thing> {
    let mut extent = item.extent()?;
    if let Item::Sign(sign) = item {
        // The end of a flag curls round its own head, which is no further away than its stem is long.
        match sign.kind {
            SignKind::FlagsUp(_) => extent.bottom -= 1.0,
            SignKind::FlagsDown(_) => extent.top += 1.0,
            // Slanted digits lean on one another.
            SignKind::TupletDigit(_) => extent = extent.grown(-0.2),
            _ => {}
        }
    }
    let (kind, says) = match item {
        Item::Text(text) => (Kind::Text, format!("text {:?}", text.text)),
        Item::Sign(sign) => (Kind::Sign, format!("{:?}", sign.kind)),
        Item::Group { says, .. } => (Kind::Group, format!("group {says:?}")),
        Item::Line(line) => (Kind::Line, format!("line {:?}", (line.from, line.to))),
        Item::Outline(Outline { fill: Some(Shade::White), .. }) => {
            (Kind::Cover, "white".to_owned())
        }
        Item::Outline(_) => return None,
    };
    Some(Thing { extent, says, order, kind })
}

fn may_not_meet(one: Kind, other: Kind) -> bool {
    use Kind::{Cover, Group, Line, Sign, Text};
    match (one, other) {
        (Cover, _) | (_, Cover) | (Line, Line) => false,
        // Strings pass behind marks; staff lines behind signs.
        (Line, Group | Sign) | (Group | Sign, Line) => false,
        (Text, _) | (_, Text) => true,
        (Group | Sign, Group | Sign) => true,
    }
}

/// Is the one below hidden where the one above stands?
fn is_covered(things: &[Thing], one: &Thing, other: &Thing) -> bool {
    let (below, above) = if one.order < other.order { (one, other) } else { (other, one) };
    things.iter().any(|cover| {
        cover.kind == Kind::Cover
            && (below.order..above.order).contains(&cover.order)
            && contains(cover.extent, above.extent)
    })
}

fn contains(outer: Extent, inner: Extent) -> bool {
    outer.left <= inner.left + PLAY
        && outer.top <= inner.top + PLAY
        && outer.right >= inner.right - PLAY
        && outer.bottom >= inner.bottom - PLAY
}
