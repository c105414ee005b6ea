//! Lengths as they are written.

use crate::time::Quarters;

/// What a whole note is divided into.
pub(super) const PARTS: [u32; 7] = [1, 2, 4, 8, 16, 32, 64];

/// The most notes that a tuplet has, or stands in the place of.
pub(super) const WIDEST_TUPLET: u32 = 32;

/// The most values that are tied to one another.
const MOST_TIED: usize = 500;

/// A length so that it is read again, with the mark of what it is: as values tied to one another
/// where those make it up, else as a tuplet.
pub(super) fn written(length: Quarters, mark: &str) -> String {
    let values = tied_values(length).map(|values| format!("{mark}{values}"));
    values.or_else(|| tuplet(length, mark)).unwrap_or_else(|| format!("{mark}{length} quarters"))
}

/// `4~8`; `None` where no values make up the length.
fn tied_values(length: Quarters) -> Option<String> {
    let mut left = length;
    let mut written: Vec<String> = Vec::new();
    for part in PARTS {
        let value = Quarters::whole(4).divided_into(part)?;
        let (count, rest) = left.divided_with_rest(value)?;
        written.extend((0..count).map(|_| part.to_string()));
        left = rest;
        if written.len() > MOST_TIED {
            return None;
        }
    }
    left.is_zero().then(|| written.join("~"))
}

/// `3:2(8)`: so many in the time of the next smaller power of two, as tuplets are counted.
fn tuplet(length: Quarters, mark: &str) -> Option<String> {
    (3..=WIDEST_TUPLET).find_map(|notes| {
        let normal = 1 << (notes - 1).ilog2();
        let values = tied_values(length.in_tuplet(normal, notes)?)?;
        Some(format!("{notes}:{normal}({mark}{values})"))
    })
}
