//! What a column writes into each row.

use fretloom_fretboard::StringNumber;
use fretloom_theory::{ChordSymbol, Stroke, WhichTriad};

use super::bar::{TabColumn, TabHold, TabNote, Turn};
use super::count::Count;
use super::look::{TabBelow, TabLook};
use super::row::TabRowKind;
use crate::glyphs;

/// A column, ready to be set.
#[derive(Clone, Debug)]
pub(super) struct SetColumn {
    /// In rows above and below the strings.
    pub(super) cells: Vec<Cell>,
    /// On the strings.
    pub(super) frets: Vec<FretCell>,
    /// Which strings sound on, but for those that are tied there.
    pub(super) held: Vec<StringNumber>,
    /// How well a bar that is too wide is broken before it.
    pub(super) break_before: BreakBefore,
}

/// How well a bar that is too wide is broken before a column.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) enum BreakBefore {
    /// It belongs to the column before it.
    Never,
    /// It is within a beat.
    WithinBeat,
    /// A beat begins.
    AtBeat,
}

/// A text of a row. It begins in the column of its moment; a sign may stand before it.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    pub(super) row: TabRowKind,
    pub(super) before: Option<char>,
    pub(super) text: String,
    pub(super) after: Option<char>,
}

/// A number on a string.
#[derive(Clone, Debug)]
pub(super) struct FretCell {
    pub(super) string: StringNumber,
    pub(super) before: Option<char>,
    pub(super) text: String,
    pub(super) after: Option<char>,
    /// The note that begins; none for one that is tied.
    pub(super) event: Option<usize>,
}

impl Cell {
    fn new(row: TabRowKind, text: impl Into<String>) -> Cell {
        Cell { row, before: None, text: text.into(), after: None }
    }

    /// How many columns it has from that of its moment on.
    pub(super) fn width(&self) -> usize {
        self.text.chars().count() + usize::from(self.after.is_some())
    }
}

impl FretCell {
    /// How many columns it has from that of its moment on.
    pub(super) fn width(&self) -> usize {
        self.text.chars().count() + usize::from(self.after.is_some())
    }
}

/// The columns of a bar, or of a piece of it, ready to be set.
pub(super) fn set(columns: &[TabColumn], look: &TabLook) -> Vec<SetColumn> {
    let is_untied = |hold: &&TabHold| hold.tied.is_none();
    let is_rest = |column: Option<&TabColumn>| column.is_some_and(|c| c.turn == Turn::Stops);
    let mut set = Vec::with_capacity(columns.len());
    for ((index, column), break_before) in columns.iter().enumerate().zip(breaks(columns)) {
        let before = index.checked_sub(1).and_then(|before| columns.get(before));
        let after = columns.get(index + 1);
        let mut cells = above(column, look);
        if look.rhythm || matches!(column.count, Count::Bars(_)) {
            let mut cell = counted(column);
            if is_rest(Some(column)) {
                cell.before = (!is_rest(before)).then_some('(');
                cell.after = (!is_rest(after)).then_some(')');
            }
            cells.push(cell);
        }
        below(column, look, &mut cells);
        set.push(SetColumn {
            cells,
            frets: frets(column),
            held: column.held.iter().filter(is_untied).map(|hold| hold.string).collect(),
            break_before,
        });
    }
    set
}

/// How well a bar is broken before each of these columns. Grace notes belong to what comes after
/// them, and rolled ones to what comes before.
fn breaks(columns: &[TabColumn]) -> Vec<BreakBefore> {
    let mut of_main = BreakBefore::WithinBeat;
    let mut breaks = vec![BreakBefore::Never; columns.len()];
    for (index, column) in columns.iter().enumerate().rev() {
        of_main = match column.count {
            Count::Grace => of_main,
            Count::Rolled => BreakBefore::Never,
            Count::Beat(_) => BreakBefore::AtBeat,
            Count::Syllable(_)
            | Count::Part { .. }
            | Count::Between
            | Count::LeftOut
            | Count::Bars(_) => BreakBefore::WithinBeat,
        };
        let before = index.checked_sub(1).and_then(|before| columns.get(before));
        let follows_grace = before.is_some_and(|before| before.count == Count::Grace);
        if let Some(place) = breaks.get_mut(index).filter(|_| !follows_grace) {
            *place = of_main;
        }
    }
    breaks
}

fn counted(column: &TabColumn) -> Cell {
    let mut cell = Cell::new(TabRowKind::Count, column.count.to_string());
    let is_said_to_go_on = column.turn == Turn::GoesOn && column.count != Count::LeftOut;
    cell.before = is_said_to_go_on.then_some('~');
    cell
}

fn above(column: &TabColumn, look: &TabLook) -> Vec<Cell> {
    let mut cells = Vec::new();
    if let Some(chord) = &column.chord {
        cells.push(Cell::new(TabRowKind::Chords, symbol(chord)));
    }
    if let Some(position) = column.position.filter(|_| look.positions) {
        cells.push(Cell::new(TabRowKind::Positions, position.to_string()));
    }
    if look.strokes {
        if column.notes.iter().any(|note| note.accent) {
            cells.push(Cell::new(TabRowKind::Accents, ">"));
        }
        if let Some(stroke) = column.notes.iter().find_map(|note| note.stroke) {
            let sign = match stroke {
                Stroke::Down => "⊓",
                Stroke::Up => "V",
            };
            cells.push(Cell::new(TabRowKind::Strokes, sign));
        }
    }
    cells
}

/// How many signs a symbol has at most that could not be read.
const LONGEST_SYMBOL: usize = 20;

/// A chord symbol, of which every sign has one column.
fn symbol(chord: &ChordSymbol) -> String {
    match chord {
        ChordSymbol::Chord(_) | ChordSymbol::NoChord => chord.to_string(),
        ChordSymbol::Unread(text) => in_columns(text, LONGEST_SYMBOL),
    }
}

/// A text that came from outside, cut to a length, of which every sign has one column.
pub(super) fn in_columns(text: &str, longest: usize) -> String {
    let plain = |char: char| match char {
        'Δ' => "maj7".to_owned(),
        _ if glyphs::is_plain(&char.to_string()) => char.to_string(),
        _ => "?".to_owned(),
    };
    let text: String = text.chars().take(longest).map(plain).collect();
    text.chars().take(longest).collect()
}

/// The numbers on the strings: of notes that begin, and of those that are tied.
fn frets(column: &TabColumn) -> Vec<FretCell> {
    let begun = column.notes.iter().map(|note| FretCell {
        string: note.string,
        before: note.slur.map(|slur| slur.letter()),
        text: note.fret.to_string(),
        after: None,
        event: Some(note.event),
    });
    let tied = column.held.iter().filter_map(|hold| {
        let text = hold.tied?.to_string();
        let (before, after) = (Some('('), Some(')'));
        Some(FretCell { string: hold.string, before, text, after, event: None })
    });
    begun.chain(tied).collect()
}

fn below(column: &TabColumn, look: &TabLook, cells: &mut Vec<Cell>) {
    for (note, row) in column.notes.iter().zip(0..) {
        if let Some(finger) = note.finger.filter(|_| look.fingers) {
            cells.push(Cell::new(TabRowKind::Fingers(row), finger.number().to_string()));
        }
        cells.extend(named(note, look, TabRowKind::Below(row)));
    }
}

/// What stands below a note besides its finger, in the brackets of its triad.
fn named(note: &TabNote, look: &TabLook, row: TabRowKind) -> Option<Cell> {
    let text = match look.below {
        TabBelow::Degrees => note.degree.map(|degree| degree.to_string()),
        TabBelow::Names => note.name.map(|name| name.to_string()),
        TabBelow::Nothing => None,
    };
    let mark = note.triad.filter(|_| look.triads);
    let text = text.or_else(|| mark.map(|_| "-".to_owned()))?;
    let mut cell = Cell::new(row, text);
    if let Some(mark) = mark {
        let (open, close) = match mark.which {
            WhichTriad::First => ('[', ']'),
            WhichTriad::Second => ('(', ')'),
        };
        cell.before = mark.opens.then_some(open);
        cell.after = mark.closes.then_some(close);
    }
    Some(cell)
}
