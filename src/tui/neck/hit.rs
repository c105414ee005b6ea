//! What lies under a cell of a drawn neck.

use super::{Handed, NeckPicture};

/// Something on a drawn neck.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NeckHit {
    /// A string's number or name.
    Name(u8),
    /// A string at a fret, 0 for the open string.
    Place(u8, u8),
}

impl NeckPicture {
    /// What lies under a cell of a picture of that width, counted from its upper left corner; none
    /// beside the strings, on a wire and beyond the last fret shown.
    #[must_use]
    pub fn hit(&self, width: u16, column: u16, row: u16) -> Option<NeckHit> {
        let string = self.strings.get(usize::from(row.checked_sub(1)?))?.number;
        let geometry = self.geometry(width);
        let column = match self.hand {
            Handed::Right => column,
            Handed::Left => width.checked_sub(column + 1)?,
        };
        if column < geometry.open_mark() {
            return Some(NeckHit::Name(string));
        }
        if column < geometry.nut() {
            return Some(NeckHit::Place(string, 0));
        }
        let mut shown = geometry.first_shown()..=geometry.last_shown();
        let is_under = |fret: &u8| {
            let cell = geometry.cell(*fret);
            cell.is_some_and(|(start, cells)| (start..start + cells).contains(&column))
        };
        shown.find(is_under).map(|fret| NeckHit::Place(string, fret))
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Neck, Tuning};

    use super::*;
    use crate::picture::Labels;

    /// `  1 E  ┃─────┼─────┼`, and its mirror image.
    #[test]
    fn cells_are_found_on_either_side() {
        let neck = Neck::new(Tuning::read("E A D G B E").unwrap());
        let picture = NeckPicture::new(&neck, &[], Labels::Note);
        let nut = picture.geometry(80).nut();
        let hits = [
            (1, 1, Some(NeckHit::Name(1))),
            (nut - 1, 6, Some(NeckHit::Place(6, 0))),
            (nut + 1, 2, Some(NeckHit::Place(2, 1))),
            (nut + 5, 2, Some(NeckHit::Place(2, 1))),
            (nut, 2, None),
            (nut + 6, 2, None),
            (nut + 7, 2, Some(NeckHit::Place(2, 2))),
            (3, 0, None),
            (3, 7, None),
            (79, 1, None),
        ];
        let mirrored = picture.clone().left_handed();
        for (column, row, expected) in hits {
            assert_eq!(picture.hit(80, column, row), expected, "{column} {row}");
            assert_eq!(mirrored.hit(80, 79 - column, row), expected, "{column} {row}");
        }
        assert_eq!(picture.upside_down().hit(80, 1, 1), Some(NeckHit::Name(6)));
    }
}
