//! Tablature: which fret is played on which string, from left to right.

use fretloom_fretboard::{
    Finger, Fret, HandPosition, Neck, OpenString, Place, Shape, StringNumber, Tuning,
};
use fretloom_theory::NoteName;

/// Notes on the strings of an instrument, from left to right.
///
/// # Example
///
/// ```
/// use fretloom::picture::{Tab, TabEvent, TabNote};
/// use fretloom_fretboard::{Finger, Fret, HandPosition, StringNumber, Tuning};
///
/// let tuning = Tuning::read("E A D G B E").unwrap();
/// let event = |moment, string, fret| TabEvent {
///     moment,
///     bar: 0,
///     position: HandPosition::FIRST,
///     note: TabNote {
///         string: StringNumber::new(string).unwrap(),
///         fret: Fret::new(fret).unwrap(),
///         finger: Some(Finger::Third),
///     },
/// };
/// let tab = Tab::of_line(&tuning, vec![event(0, 1, 3), event(0, 6, 3), event(1, 2, 3)]);
/// let notes: Vec<usize> = tab.columns.iter().map(|column| column.notes.len()).collect();
/// assert_eq!(notes, [2, 1]);
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Tab {
    /// String 1 first, as tablature is written.
    pub strings: Vec<TabString>,
    /// By time.
    pub columns: Vec<TabColumn>,
}

/// One string.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TabString {
    /// Its number.
    pub number: StringNumber,
    /// What it is tuned to.
    pub name: NoteName,
}

/// What is played at once.
#[derive(Clone, PartialEq, Debug)]
pub struct TabColumn {
    /// Which bar its first note is in, counted from 0.
    pub bar: u64,
    /// Where the hand stands, counted as frets are written.
    pub position: HandPosition,
    /// At most one on a string, string 1 first.
    pub notes: Vec<TabNote>,
}

/// One note.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TabNote {
    /// The string.
    pub string: StringNumber,
    /// The fret as it is written.
    pub fret: Fret,
    /// The finger that takes it; none where no hand can.
    pub finger: Option<Finger>,
}

/// A note of a line, with its time.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TabEvent {
    /// The moment of the line, counted from 0: what has the same sounds together.
    pub moment: usize,
    /// Which bar it is in, counted from 0.
    pub bar: u64,
    /// Where the hand stands, counted as frets are written.
    pub position: HandPosition,
    /// String, fret and finger.
    pub note: TabNote,
}

impl Tab {
    /// The tab of a line, whose notes may come in any order: those of one moment share a column.
    #[must_use]
    pub fn of_line(tuning: &Tuning, mut events: Vec<TabEvent>) -> Tab {
        events.sort_by_key(|event| event.moment);
        let of_moments = events.chunk_by(|one, next| one.moment == next.moment);
        let mut columns: Vec<TabColumn> = of_moments.filter_map(TabColumn::of).collect();
        for column in &mut columns {
            column.notes.sort_by_key(|note| note.string);
        }
        Tab { strings: strings(tuning), columns }
    }

    /// The tab of a shape in one column, with frets that count from the capo, as tablature does.
    #[must_use]
    pub fn of_shape(neck: &Neck, shape: &Shape) -> Tab {
        let fingers = shape.fingers();
        let finger = |index| fingers.as_ref()?.get(index).copied();
        let note = |(index, place): (usize, Place)| TabNote {
            string: place.string,
            fret: neck.tab_number(place),
            finger: finger(index),
        };
        let mut notes: Vec<TabNote> = shape.places().into_iter().enumerate().map(note).collect();
        notes.sort_by_key(|note| note.string);
        let column = TabColumn { bar: 0, position: shape.position(), notes };
        Tab { strings: strings(neck.tuning()), columns: vec![column] }
    }

    /// The highest fret that is written; fret 0 where there is no note.
    #[must_use]
    pub fn highest_fret(&self) -> Fret {
        let notes = self.columns.iter().flat_map(|column| &column.notes);
        notes.map(|note| note.fret).max().unwrap_or(Fret::OPEN)
    }
}

impl TabColumn {
    /// The column of what sounds together; `None` for nothing.
    fn of(events: &[TabEvent]) -> Option<TabColumn> {
        let TabEvent { bar, position, .. } = *events.first()?;
        let notes = events.iter().map(|event| event.note).collect();
        Some(TabColumn { bar, position, notes })
    }

    /// The note on a string.
    #[must_use]
    pub fn on(&self, string: StringNumber) -> Option<TabNote> {
        self.notes.iter().find(|note| note.string == string).copied()
    }
}

fn strings(tuning: &Tuning) -> Vec<TabString> {
    let string =
        |(number, open): (StringNumber, OpenString)| TabString { number, name: open.note().name() };
    let mut strings: Vec<TabString> = tuning.strings().map(string).collect();
    strings.sort_by_key(|string| string.number);
    strings
}
