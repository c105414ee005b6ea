//! Which columns the frets of a drawn neck take.

use fretloom_fretboard::Fret;

use super::fret_widths::FretWidths;

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
/// use fretloom::picture::{Cell, FretWidths, NeckPicture};
/// use fretloom_fretboard::{Fret, Neck, Tuning};
///
/// let neck = Neck::new(Tuning::read("E A D G B E").unwrap());
/// let picture = NeckPicture::new(&neck, Vec::new());
/// let fret = |number| Fret::new(number).unwrap();
/// let columns = picture.columns(80);
/// assert_eq!(columns.nut(), 8);
/// assert_eq!(columns.cell(fret(1)), Some(Cell { start: 9, width: 5 }));
/// assert_eq!(columns.last_shown(), fret(11));
/// assert_eq!(columns.cell(fret(12)), None); // beyond the edge
/// let picture = picture.within("1-20".parse().unwrap()).with_fret_widths(FretWidths::True);
/// let columns = picture.columns(200);
/// let with_wire = |number| columns.cell(fret(number)).unwrap().width + 1;
/// assert_eq!(with_wire(1), 2 * with_wire(13));
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NeckColumns {
    texts: TextWidths,
    first: Fret,
    /// The nut, or what stands there where the neck is scrolled; then the wire of each fret shown.
    wires: Vec<u16>,
}

/// Columns side by side.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Cell {
    /// The first of them.
    pub start: u16,
    /// How many they are.
    pub width: u16,
}

/// How many columns the widest string name and the widest label of a note of the pair take.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct TextWidths {
    pub(super) name: u16,
    pub(super) label: u16,
    /// The same where the sign of a root counts.
    pub(super) signed_label: u16,
}

/// The frets that are to be shown.
pub(super) struct Frets {
    pub(super) first: Fret,
    /// How far wires are from the nut, from the one before the first fret on.
    pub(super) wires_mm: Vec<f64>,
    pub(super) widths: FretWidths,
}

/// No neck takes more, at its narrowest.
const MOST_COLUMNS: u16 = 1000;

impl NeckColumns {
    /// As many of the frets as fit in `width` columns; none where not even one does.
    pub(super) fn new(width: u16, texts: TextWidths, frets: &Frets) -> NeckColumns {
        let nut = texts.nut();
        let room = width.saturating_sub(nut + 1);
        let shown = frets.that_fit(room, texts.fretted());
        let span = frets.span(shown, room);
        let wires = (0..=shown).map(|count| nut + frets.wire(count, shown, span)).collect();
        NeckColumns { texts, first: frets.first, wires }
    }

    /// How many columns show all the frets at their narrowest.
    pub(super) fn narrowest_width(texts: TextWidths, frets: &Frets) -> u16 {
        let least = texts.nut() + 1;
        let all_fit =
            |width: &u16| frets.that_fit(*width - least, texts.fretted()) >= frets.count();
        (least..MOST_COLUMNS).find(all_fit).unwrap_or(MOST_COLUMNS)
    }

    /// The column of the nut, or of the mark that stands there where the neck is scrolled.
    #[must_use]
    pub const fn nut(&self) -> u16 {
        self.texts.nut()
    }

    /// The first column of a string's name.
    #[must_use]
    pub const fn name(&self) -> u16 {
        NAME
    }

    /// The columns of the mark of an open string.
    #[must_use]
    pub const fn open_mark(&self) -> Cell {
        Cell { start: self.texts.open_mark(), width: self.texts.mark() }
    }

    /// The columns of a fret, without its wire; `None` where the fret is not shown.
    #[must_use]
    pub fn cell(&self, fret: Fret) -> Option<Cell> {
        let index = usize::from(fret.number().checked_sub(self.first.number())?);
        let (before, after) = (self.wires.get(index)?, self.wires.get(index + 1)?);
        Some(Cell { start: before + 1, width: after.saturating_sub(before + 1) })
    }

    /// The frets shown, from the first up.
    pub fn shown(&self) -> impl Iterator<Item = Fret> {
        (self.first.number()..=self.last_shown().number()).filter_map(Fret::new)
    }

    /// The first fret shown.
    #[must_use]
    pub const fn first_shown(&self) -> Fret {
        self.first
    }

    /// The last fret shown; one below the first where none is.
    #[must_use]
    pub fn last_shown(&self) -> Fret {
        let next = usize::from(self.first.number()) + self.wires.len().saturating_sub(1);
        let last = u8::try_from(next.saturating_sub(1)).ok().and_then(Fret::new);
        last.unwrap_or(Fret::HIGHEST)
    }
}

impl Cell {
    /// The first column of a text of that width in the middle.
    #[must_use]
    pub const fn centred(self, width: u16) -> u16 {
        self.start + self.width.saturating_sub(width) / 2
    }

    /// Is this one of the columns?
    #[must_use]
    pub const fn contains(self, column: u16) -> bool {
        self.start <= column && column < self.start + self.width
    }
}

/// The first column of a string's name: before it stands the number.
const NAME: u16 = 3;

impl TextWidths {
    const fn open_mark(self) -> u16 {
        NAME + self.name + 1
    }

    const fn nut(self) -> u16 {
        self.open_mark() + self.mark()
    }

    /// Columns that a mark with its brackets takes at the most.
    const fn mark(self) -> u16 {
        self.label + 2
    }

    /// The same where it may have the sign of a root before it.
    const fn fretted(self) -> u16 {
        self.signed_label + 2
    }
}

impl Frets {
    fn count(&self) -> u16 {
        self.wires_mm.len().saturating_sub(1) as u16
    }

    /// The most that fit in so many columns, each wide enough for a mark.
    fn that_fit(&self, room: u16, mark: u16) -> u16 {
        let narrowest = self.narrowest_cell(mark);
        let fits = |all: &u16| {
            let span = self.span(*all, room);
            let at = |count| self.wire(count, *all, span);
            (0..*all).all(|count| at(count + 1).saturating_sub(at(count)) > narrowest)
        };
        (1..=self.count()).rev().find(fits).unwrap_or_default()
    }

    /// The columns that `all` frets take with their wires.
    fn span(&self, all: u16, room: u16) -> u16 {
        room.min(all.saturating_mul(self.widest_cell() + 1))
    }

    /// Where the wire of the fret number `count` of `all` stands, counted from the column before the
    /// first cell.
    fn wire(&self, count: u16, all: u16, span: u16) -> u16 {
        match self.widths {
            FretWidths::Even => span / all.max(1) * count,
            FretWidths::True => (f64::from(span) * self.part(count, all)).round() as u16,
        }
    }

    /// Which part of the way along `all` frets `count` of them take.
    fn part(&self, count: u16, all: u16) -> f64 {
        let at = |count: u16| self.wires_mm.get(usize::from(count)).copied().unwrap_or_default();
        let way_mm = at(all) - at(0);
        if way_mm > 0.0 { (at(count) - at(0)) / way_mm } else { 0.0 }
    }

    /// The widest a cell grows in the mean, where there is room.
    const fn widest_cell(&self) -> u16 {
        match self.widths {
            FretWidths::Even => 9,
            FretWidths::True => 19,
        }
    }

    /// The narrowest cell for a mark; one of even width has wood to be seen beside it.
    fn narrowest_cell(&self, mark: u16) -> u16 {
        match self.widths {
            FretWidths::Even => mark.max(5),
            FretWidths::True => mark.max(3),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(name: u16, label: u16) -> TextWidths {
        TextWidths { name, label, signed_label: label + 1 }
    }

    /// Frets `first` to `last` of a guitar.
    fn frets(widths: FretWidths, first: u8, last: u8) -> Frets {
        let wire_mm = |fret: u8| 648.0 * (1.0 - (-f64::from(fret) / 12.0).exp2());
        let wires_mm = (first - 1..=last).map(wire_mm).collect();
        Frets { first: Fret::new(first).unwrap(), wires_mm, widths }
    }

    /// Every width, label, first and last fret that can occur.
    #[test]
    fn cells_never_overlap_and_never_leave_the_width() {
        for width in 0..=240 {
            for label in 1..=3 {
                for (first, last) in [(1, 0), (1, 22), (5, 12), (12, 24), (1, 36), (36, 36)] {
                    for widths in FretWidths::ALL {
                        let frets = frets(widths, first, last);
                        let columns = NeckColumns::new(width, texts(2, label), &frets);
                        let mut free = columns.nut() + 1;
                        for fret in columns.shown() {
                            let cell = columns.cell(fret).unwrap();
                            assert_eq!(cell.start, free);
                            assert!(cell.width >= label + 3);
                            free = cell.start + cell.width + 1;
                            assert!(free <= width, "{width} {label} {first}-{last}");
                        }
                        assert!(columns.last_shown().number() <= last.max(first - 1));
                    }
                }
            }
        }
    }

    #[test]
    fn a_width_made_for_some_frets_shows_them_all() {
        for widths in FretWidths::ALL {
            for last in 1..=36 {
                let frets = frets(widths, 1, last);
                let width = NeckColumns::narrowest_width(texts(2, 2), &frets);
                let shown =
                    |width| NeckColumns::new(width, texts(2, 2), &frets).last_shown().number();
                assert_eq!((shown(width), shown(width - 1)), (last, last - 1), "{widths:?}");
            }
        }
    }

    /// Equal temperament halves a string with twelve frets, so it halves the cells too. Counted with
    /// the wire, and but for the rounding of two wires to whole columns.
    #[test]
    fn twelve_frets_up_a_true_cell_is_half_as_wide() {
        for width in 100..240 {
            let columns = NeckColumns::new(width, texts(1, 1), &frets(FretWidths::True, 1, 24));
            let cells = columns.shown().filter_map(|fret| columns.cell(fret));
            let frets: Vec<i32> = cells.map(|cell| i32::from(cell.width) + 1).collect();
            assert!(frets.len() > 12, "{width}");
            for (low, high) in frets.iter().zip(&frets[12..]) {
                assert!((low - 2 * high).abs() <= 3, "{width}: {frets:?}");
            }
            assert!(frets.windows(2).all(|two| two[1] <= two[0] + 1), "{frets:?}");
        }
    }
}
