//! Which columns the frets of a drawn neck take.

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
/// use fretloom::tui::neck::NeckGeometry;
/// let geometry = NeckGeometry::new(80, 1, 2, 1, 22);
/// assert_eq!(geometry.nut(), 9);
/// assert_eq!(geometry.cell(1), Some((10, 5)));
/// assert_eq!(geometry.last_shown(), 11);
/// assert_eq!(geometry.cell(12), None); // beyond the edge
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NeckGeometry {
    name_width: u16,
    label_width: u16,
    cell_width: u16,
    first: u8,
    last_shown: u8,
}

impl NeckGeometry {
    /// The widest a cell grows where there is room.
    const WIDEST: u16 = 9;

    /// A neck that shows frets from `first`, with string names and labels of these widths, in
    /// `width` columns. As many frets are shown as fit, none where not even one does.
    #[must_use]
    pub fn new(width: u16, name_width: u16, label_width: u16, first: u8, last: u8) -> Self {
        let narrowest = (label_width + 2).max(5);
        let first = first.max(1);
        let frets = u16::from((last + 1).saturating_sub(first));
        let mut geometry = NeckGeometry {
            name_width,
            label_width,
            cell_width: narrowest,
            first,
            last_shown: first - 1,
        };
        let room = width.saturating_sub(geometry.nut() + 1);
        if let Some(widest) = room.checked_div(frets) {
            geometry.cell_width = widest.saturating_sub(1).clamp(narrowest, Self::WIDEST);
        }
        let shown = frets.min(room / (geometry.cell_width + 1));
        geometry.last_shown = first + shown as u8 - 1;
        geometry
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
        let cells_before = u16::from(fret - self.first);
        Some((self.nut() + 1 + cells_before * (self.cell_width + 1), self.cell_width))
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

    /// How many columns a neck takes that shows frets `first` to `last` at its narrowest.
    #[must_use]
    pub fn width_for(name_width: u16, label_width: u16, first: u8, last: u8) -> u16 {
        let geometry = NeckGeometry::new(0, name_width, label_width, first, last);
        let frets = u16::from((last + 1).saturating_sub(first.max(1)));
        geometry.nut() + 1 + frets * (geometry.cell_width + 1)
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
                    let geometry = NeckGeometry::new(width, 2, label, first, last);
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

    #[test]
    fn a_width_made_for_some_frets_shows_them_all() {
        for last in 1..=36 {
            let width = NeckGeometry::width_for(2, 2, 1, last);
            assert_eq!(NeckGeometry::new(width, 2, 2, 1, last).last_shown(), last);
            assert_eq!(NeckGeometry::new(width - 1, 2, 2, 1, last).last_shown(), last - 1);
        }
    }
}
