//! Which columns the frets of a drawn neck take.

use crate::picture::FretWidths;

/// The columns of a neck: the gutter with string number, name and open note, the nut, then one
/// cell a fret, each closed by its wire.
///
/// ```text
///  1 E (E)┃─────┼─[G]─┼
///  └gutter┘ └cell┘     └ wire of fret 2
/// ```
///
/// # Example
///
/// ```
/// use fretloom::picture::FretWidths;
/// use fretloom::tui::neck::NeckGeometry;
/// let geometry = NeckGeometry::new(FretWidths::Even, 80, [1, 2], (1, 22));
/// assert_eq!(geometry.nut(), 9);
/// assert_eq!(geometry.cell(1), Some((10, 5)));
/// assert_eq!(geometry.last_shown(), 11);
/// assert_eq!(geometry.cell(12), None); // beyond the edge
/// let geometry = NeckGeometry::new(FretWidths::True, 200, [1, 1], (1, 20));
/// let with_wire = |fret| geometry.cell(fret).unwrap().1 + 1;
/// assert_eq!(with_wire(1), 2 * with_wire(13));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NeckGeometry {
    name_width: u16,
    label_width: u16,
    widths: FretWidths,
    first: u8,
    last_shown: u8,
    /// The columns of all cells that are shown, with their wires.
    span: u16,
}

/// Where the wire of the cell number `count` of `all` stands, counted from the column before the
/// first cell.
///
/// Strings stop at equal ratios: the part of a string that `n` frets take is 1 - 2^(-n/12), the
/// rule of equal temperament, and any stretch of a neck is the whole of it made smaller.
fn wire(widths: FretWidths, count: u16, all: u16, span: u16) -> u16 {
    match widths {
        FretWidths::Even => span / all.max(1) * count,
        FretWidths::True => {
            let taken = |frets: u16| 1.0 - (-f64::from(frets) / 12.0).exp2();
            (f64::from(span) * taken(count) / taken(all.max(1))).round() as u16
        }
    }
}

/// The widest a cell grows in the mean, where there is room.
const fn widest_cell(widths: FretWidths) -> u16 {
    match widths {
        FretWidths::Even => 9,
        FretWidths::True => 19,
    }
}

/// The narrowest cell for a label; one of even width has wood to be seen beside it.
fn narrowest_cell(widths: FretWidths, label_width: u16) -> u16 {
    match widths {
        FretWidths::Even => (label_width + 2).max(5),
        FretWidths::True => (label_width + 2).max(3),
    }
}

/// No neck takes more, at its narrowest.
const MOST_COLUMNS: u16 = 1000;

impl NeckGeometry {
    /// A neck that shows frets from `first`, with string names and labels of these widths, in
    /// `width` columns. As many frets are shown as fit, none where not even one does.
    #[must_use]
    pub fn new(
        widths: FretWidths,
        width: u16,
        [name_width, label_width]: [u16; 2],
        (first, last): (u8, u8),
    ) -> Self {
        let first = first.max(1);
        let nothing =
            NeckGeometry { name_width, label_width, widths, first, last_shown: last, span: 0 };
        nothing.within(width)
    }

    /// With as many of its frets as fit.
    fn within(mut self, width: u16) -> Self {
        let room = width.saturating_sub(self.nut() + 1);
        let frets = u16::from((self.last_shown + 1).saturating_sub(self.first));
        let widest = |frets: u16| room.min(frets.saturating_mul(widest_cell(self.widths) + 1));
        let narrowest = narrowest_cell(self.widths, self.label_width);
        let fits = |frets: &u16| {
            let at = |count: u16| wire(self.widths, count, *frets, widest(*frets));
            (0..*frets).all(|count| at(count + 1).saturating_sub(at(count)) > narrowest)
        };
        let shown = (1..=frets).rev().find(fits).unwrap_or_default();
        self.span = widest(shown);
        self.last_shown = (u16::from(self.first) + shown).saturating_sub(1) as u8;
        self
    }

    /// The column of the nut, or of the mark that stands there where the neck is scrolled.
    #[must_use]
    pub const fn nut(self) -> u16 {
        self.open_mark() + self.label_width + 2
    }

    /// The first column of a string's name.
    #[must_use]
    pub const fn name(self) -> u16 {
        3
    }

    /// The first column of the mark of an open string, and how many columns it has.
    #[must_use]
    pub const fn open_mark(self) -> u16 {
        self.name() + self.name_width + 1
    }

    /// The first column of a fret's cell and its width; `None` where the fret is not shown.
    #[must_use]
    pub fn cell(self, fret: u8) -> Option<(u16, u16)> {
        if fret < self.first || fret > self.last_shown {
            return None;
        }
        let all = u16::from((self.last_shown + 1).saturating_sub(self.first));
        let count = u16::from(fret - self.first);
        let at = |count| wire(self.widths, count, all, self.span);
        let (before, after) = (at(count), at(count + 1));
        Some((self.nut() + 1 + before, after.saturating_sub(before + 1)))
    }

    /// The first fret shown.
    #[must_use]
    pub const fn first_shown(self) -> u8 {
        self.first
    }

    /// The last fret shown; one below the first where none is.
    #[must_use]
    pub const fn last_shown(self) -> u8 {
        self.last_shown
    }

    /// How many columns a neck takes that shows frets `first` to `last` at their narrowest.
    #[must_use]
    pub fn width_for(widths: FretWidths, texts: [u16; 2], frets: (u8, u8)) -> u16 {
        let of_width = |width: u16| NeckGeometry::new(widths, width, texts, frets);
        let all_shown = |width: &u16| of_width(*width).last_shown >= frets.1;
        (of_width(0).nut() + 1..MOST_COLUMNS).find(all_shown).unwrap_or(MOST_COLUMNS)
    }

    /// The first column of a mark that stands in the middle of a cell.
    pub(super) fn centred(cell: (u16, u16), width: u16) -> u16 {
        let (start, room) = cell;
        start + room.saturating_sub(width) / 2
    }

    /// Columns that a mark with its brackets takes at the most.
    pub(super) const fn mark_width(self) -> u16 {
        self.label_width + 2
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every width, label, first and last fret that can occur.
    #[test]
    fn cells_never_overlap_and_never_leave_the_width() {
        for width in 0..=240 {
            for label in 1..=3 {
                for (first, last) in [(1, 0), (1, 22), (5, 12), (12, 24), (1, 36), (36, 36)] {
                    for widths in FretWidths::ALL {
                        let geometry = NeckGeometry::new(widths, width, [2, label], (first, last));
                        let mut free = geometry.nut() + 1;
                        for fret in first..=geometry.last_shown() {
                            let (start, cells) = geometry.cell(fret).unwrap();
                            assert_eq!(start, free);
                            assert!(cells >= label + 2);
                            free = start + cells + 1;
                            assert!(free <= width, "{width} {label} {first}-{last}");
                        }
                        assert!(geometry.last_shown() <= last.max(first - 1));
                    }
                }
            }
        }
    }

    #[test]
    fn a_width_made_for_some_frets_shows_them_all() {
        for widths in FretWidths::ALL {
            for last in 1..=36 {
                let width = NeckGeometry::width_for(widths, [2, 2], (1, last));
                let shown =
                    |width| NeckGeometry::new(widths, width, [2, 2], (1, last)).last_shown();
                assert_eq!((shown(width), shown(width - 1)), (last, last - 1), "{widths:?}");
            }
        }
    }

    /// Equal temperament halves a string with twelve frets, so it halves the cells too. Counted with
    /// the wire, and but for the rounding of two wires to whole columns.
    #[test]
    fn twelve_frets_up_a_true_cell_is_half_as_wide() {
        for width in 100..240 {
            let geometry = NeckGeometry::new(FretWidths::True, width, [1, 1], (1, 24));
            let with_wire = |fret| geometry.cell(fret).map(|(_, cells)| i32::from(cells) + 1);
            let frets: Vec<i32> = (1..=24).map_while(with_wire).collect();
            assert!(frets.len() > 12, "{width}");
            for (low, high) in frets.iter().zip(&frets[12..]) {
                assert!((low - 2 * high).abs() <= 3, "{width}: {frets:?}");
            }
            assert!(frets.windows(2).all(|two| two[1] <= two[0] + 1), "{frets:?}");
        }
    }
}
