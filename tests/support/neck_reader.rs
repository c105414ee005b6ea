//! Reads a drawn neck from the cells of a screen, as a player's eyes do.
//!
//! It relies on what the picture promises and on nothing else: a row of fret numbers; below it a
//! row for each string, string 1 first; a mark is a label in brackets, `[G]` for the first triad
//! and `(A)` for the second; a mark stands under the number of its fret, or before the nut where
//! the string is open; what is held looks reversed.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "the functions of a test are a test too"
)]

use std::collections::BTreeSet;
use std::ops::RangeInclusive;

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::Modifier;

/// What was read.
#[derive(Debug)]
pub(crate) struct DrawnNeck {
    pub(crate) strings: usize,
    /// From the first number of the header to the last.
    pub(crate) frets: RangeInclusive<u8>,
    pub(crate) marks: BTreeSet<ReadMark>,
    /// String and fret of the marks that look held.
    pub(crate) held: BTreeSet<(u8, u8)>,
}

/// One mark.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) struct ReadMark {
    pub(crate) string: u8,
    pub(crate) fret: u8,
    pub(crate) side: Side,
    pub(crate) label: String,
}

/// Which triad, as the brackets say.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Side {
    First,
    Second,
}

/// A label between brackets, from the column of one bracket to that of the other.
struct Bracketed {
    from: usize,
    to: usize,
    side: Side,
    label: String,
    reversed: bool,
}

impl DrawnNeck {
    /// Finds the neck on a screen and reads it; `None` where there is no neck.
    pub(crate) fn read(buffer: &Buffer) -> Option<DrawnNeck> {
        let rows: Vec<&[Cell]> = buffer.content.chunks(usize::from(buffer.area.width)).collect();
        let header = rows.iter().position(|row| fret_numbers(row).is_some())?;
        let numbers = fret_numbers(rows.get(header)?)?;
        let strings: Vec<&[Cell]> = rows
            .into_iter()
            .skip(header + 1)
            .zip(1..)
            .map_while(|(row, number)| (string_number(row) == Some(number)).then_some(row))
            .collect();
        let mut neck = DrawnNeck {
            strings: strings.len(),
            frets: numbers.first()?.0..=numbers.last()?.0,
            marks: BTreeSet::new(),
            held: BTreeSet::new(),
        };
        // A short string begins to the right of the nut, if it is in view at all.
        let nut = strings.iter().filter_map(|row| nut(row)).min();
        let nut = nut.expect("a neck has a nut or a sign that it is scrolled");
        for (row, string) in strings.into_iter().zip(1..) {
            neck.read_string(row, string, nut, &numbers);
        }
        Some(neck)
    }

    fn read_string(&mut self, row: &[Cell], string: u8, nut: usize, numbers: &[(u8, usize)]) {
        for found in bracketed(row) {
            let fret = if found.to < nut { 0 } else { fret_over(&found, numbers) };
            if found.reversed {
                self.held.insert((string, fret));
            }
            let mark = ReadMark { string, fret, side: found.side, label: found.label };
            assert!(self.marks.insert(mark), "a mark stands twice");
        }
    }
}

/// The picture as text, for a failing test.
pub(crate) fn text(buffer: &Buffer) -> String {
    fretloom::tui::text_of(buffer)
}

fn symbols(row: &[Cell]) -> String {
    row.iter().map(Cell::symbol).collect()
}

/// The numbers of a row that holds nothing but numbers going up by one, each with its column.
fn fret_numbers(row: &[Cell]) -> Option<Vec<(u8, usize)>> {
    let text = symbols(row);
    let mut numbers = Vec::new();
    let mut from = 0;
    for word in text.split_whitespace() {
        // In a row of digits and spaces bytes are columns.
        let column = from + text[from..].find(word)?;
        numbers.push((word.parse().ok()?, column));
        from = column + word.len();
    }
    let rising = numbers.windows(2).all(|two| two[1].0 == two[0].0 + 1);
    (rising && !numbers.is_empty()).then_some(numbers)
}

fn string_number(row: &[Cell]) -> Option<usize> {
    symbols(row).split_whitespace().next()?.parse().ok()
}

/// The column of the nut, or of the sign in its place.
fn nut(row: &[Cell]) -> Option<usize> {
    row.iter().position(|cell| matches!(cell.symbol(), "┃" | "‹" | "|" | "<"))
}

fn bracketed(row: &[Cell]) -> Vec<Bracketed> {
    let mut found = Vec::new();
    for (from, cell) in row.iter().enumerate() {
        let (side, closing) = match cell.symbol() {
            "[" => (Side::First, "]"),
            "(" => (Side::Second, ")"),
            _ => continue,
        };
        let to = from + row[from..].iter().position(|cell| cell.symbol() == closing).unwrap();
        let reversed = cell.modifier.contains(Modifier::REVERSED);
        found.push(Bracketed { from, to, side, label: symbols(&row[from + 1..to]), reversed });
    }
    found
}

/// The fret whose number stands over a mark; there must be just one.
fn fret_over(mark: &Bracketed, numbers: &[(u8, usize)]) -> u8 {
    let over: Vec<u8> = numbers
        .iter()
        .filter(|(_, column)| (mark.from..=mark.to).contains(column))
        .map(|(fret, _)| *fret)
        .collect();
    assert_eq!(over.len(), 1, "{} stands under {over:?}", mark.label);
    over[0]
}
