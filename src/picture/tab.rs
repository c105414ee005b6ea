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
/// let event = |onset_s, string, fret| TabEvent {
///     onset_s,
///     bar: 0,
///     position: HandPosition::FIRST,
///     note: TabNote {
///         string: StringNumber::new(string).unwrap(),
///         fret: Fret::new(fret).unwrap(),
///         finger: Some(Finger::Third),
///     },
/// };
/// let tab = Tab::of_line(&tuning, vec![event(0.5, 1, 3), event(0.5, 6, 3), event(1.0, 2, 3)]);
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
    /// When its first note begins, in seconds.
    pub onset_s: f64,
    /// Which bar that note is in, counted from 0.
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
    /// When it begins, in seconds.
    pub onset_s: f64,
    /// Which bar it is in, counted from 0.
    pub bar: u64,
    /// Where the hand stands, counted as frets are written.
    pub position: HandPosition,
    /// String, fret and finger.
    pub note: TabNote,
}

/// Notes that begin within so many seconds of one another sound together.
const TOGETHER_S: f64 = 0.03;

impl Tab {
    /// The tab of a line, whose notes may come in any order: those that begin together on different
    /// strings share a column.
    #[must_use]
    pub fn of_line(tuning: &Tuning, mut events: Vec<TabEvent>) -> Tab {
        events.sort_by(|one, other| one.onset_s.total_cmp(&other.onset_s));
        let mut columns: Vec<TabColumn> = Vec::new();
        for event in events {
            match columns.last_mut() {
                Some(last) if last.has_room(&event) => last.notes.push(event.note),
                _ => columns.push(TabColumn::new(event)),
            }
        }
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
        let column = TabColumn { onset_s: 0.0, bar: 0, position: shape.position(), notes };
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
    fn new(event: TabEvent) -> TabColumn {
        let TabEvent { onset_s, bar, position, note } = event;
        TabColumn { onset_s, bar, position, notes: vec![note] }
    }

    /// The note on a string.
    #[must_use]
    pub fn on(&self, string: StringNumber) -> Option<TabNote> {
        self.notes.iter().find(|note| note.string == string).copied()
    }

    /// Does an event sound together with it, on a string that is free?
    fn has_room(&self, event: &TabEvent) -> bool {
        event.onset_s - self.onset_s <= TOGETHER_S && self.on(event.note.string).is_none()
    }
}

fn strings(tuning: &Tuning) -> Vec<TabString> {
    let string =
        |(number, open): (StringNumber, OpenString)| TabString { number, name: open.note().name() };
    let mut strings: Vec<TabString> = tuning.strings().map(string).collect();
    strings.sort_by_key(|string| string.number);
    strings
}
