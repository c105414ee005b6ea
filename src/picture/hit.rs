//! What lies under a column and a row of a drawn neck.

use fretloom_fretboard::{Fret, Place, StringNumber};

use super::lie::Handed;
use super::neck::NeckPicture;

/// Something on a drawn neck.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NeckHit {
    /// A string's number or name.
    Name(StringNumber),
    /// A string at a fret, 0 for the open string.
    Place(Place),
}

impl NeckPicture {
    /// What lies there in a picture that is `width` columns wide, counted from its upper left
    /// corner; `None` beside the strings, on a wire and beyond the last fret shown.
    #[must_use]
    pub fn hit(&self, width: u16, column: u16, row: u16) -> Option<NeckHit> {
        let string = self.strings.get(usize::from(row.checked_sub(1)?))?.number;
        let columns = self.columns(width);
        let column = match self.handed {
            Handed::Right => column,
            Handed::Left => width.checked_sub(column + 1)?,
        };
        if column < columns.open_mark().start {
            return Some(NeckHit::Name(string));
        }
        let place = |fret| NeckHit::Place(Place::new(string, fret));
        if column < columns.nut() {
            return Some(place(Fret::OPEN));
        }
        let is_under = |fret: &Fret| columns.cell(*fret).is_some_and(|cell| cell.contains(column));
        columns.shown().find(is_under).map(place)
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Neck, Tuning};

    use super::*;
    use crate::picture::lie::Top;

    /// `  1 E  ┃─────┼─────┼`, and its mirror image.
    #[test]
    fn cells_are_found_on_either_side() {
        let neck = Neck::new(Tuning::read("E A D G B E").unwrap());
        let picture = NeckPicture::new(&neck, Vec::new());
        let nut = picture.columns(80).nut();
        let name = |string| Some(NeckHit::Name(StringNumber::new(string).unwrap()));
        let place = |string, fret| {
            let string = StringNumber::new(string).unwrap();
            Some(NeckHit::Place(Place::new(string, Fret::new(fret).unwrap())))
        };
        let hits = [
            (1, 1, name(1)),
            (nut - 1, 6, place(6, 0)),
            (nut + 1, 2, place(2, 1)),
            (nut + 5, 2, place(2, 1)),
            (nut, 2, None),
            (nut + 6, 2, None),
            (nut + 7, 2, place(2, 2)),
            (3, 0, None),
            (3, 7, None),
            (79, 1, None),
        ];
        let mirrored = picture.clone().for_hand(Handed::Left);
        for (column, row, expected) in hits {
            assert_eq!(picture.hit(80, column, row), expected, "{column} {row}");
            assert_eq!(mirrored.hit(80, 79 - column, row), expected, "{column} {row}");
        }
        assert_eq!(picture.with_top(Top::Last).hit(80, 1, 1), name(6));
    }
}
