//! Reads a drawn neck from the cells of a screen, as a player's eyes do.
//!
//! It relies on what the picture promises and on nothing else: a row of fret numbers; below it a
//! row for each string, string 1 first; a mark is a label in brackets, `[G]` for the first triad
//! and `(A)` for the second, with `•` before it where it is the root; a mark stands under the number of its fret, or before the nut where
//! the string is open; what is held looks reversed; a capo is a bar behind the cell of its fret,
//! and where a string has no place its row is blank. Upside down the last string comes first, and
//! left-handed everything lies the other way round but the words.

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

/// How the picture lies; by default with string 1 on top and the nut at the left.
#[derive(Clone, Copy, Default, Debug)]
pub(crate) struct Lie {
    pub(crate) left_handed: bool,
    pub(crate) upside_down: bool,
}

/// What was read.
#[derive(Debug)]
pub(crate) struct DrawnNeck {
    pub(crate) strings: usize,
    /// From the first number of the header to the last.
    pub(crate) frets: RangeInclusive<u8>,
    pub(crate) marks: BTreeSet<ReadMark>,
    /// String and fret of the marks that look held.
    pub(crate) held: BTreeSet<(u8, u8)>,
    /// String and fret of the bars of a capo.
    pub(crate) bars: BTreeSet<(u8, u8)>,
    /// String and fret of every cell in view that is not blank.
    pub(crate) cells: BTreeSet<(u8, u8)>,
    /// What stands beside the numbers of the strings, string 1 first.
    pub(crate) names: Vec<String>,
}

/// One mark.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) struct ReadMark {
    pub(crate) string: u8,
    pub(crate) fret: u8,
    pub(crate) which: WhichTriad,
    pub(crate) label: String,
    /// Is it marked as a root?
    pub(crate) root: bool,
}

/// Which triad, as the brackets say.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum WhichTriad {
    First,
    Second,
}

/// A label between brackets, from the column of one bracket to that of the other.
struct Bracketed {
    from: usize,
    to: usize,
    which: WhichTriad,
    label: String,
    reversed: bool,
    root: bool,
}

impl DrawnNeck {
    /// Finds the neck on a screen and reads it; `None` where there is no neck.
    pub(crate) fn read(buffer: &Buffer) -> Option<DrawnNeck> {
        DrawnNeck::read_lying(buffer, Lie::default())
    }

    /// Reads a neck that may be upside down or mirrored.
    pub(crate) fn read_lying(buffer: &Buffer, lie: Lie) -> Option<DrawnNeck> {
        let rows: Vec<&[Cell]> = buffer.content.chunks(usize::from(buffer.area.width)).collect();
        let header = rows.iter().position(|row| fret_numbers(row, lie).is_some())?;
        let numbers = fret_numbers(rows.get(header)?, lie)?;
        let below = rows.into_iter().skip(header + 1);
        let mut strings: Vec<(usize, &[Cell])> =
            below.map_while(|row| Some((string_number(row, lie)?, row))).collect();
        if lie.upside_down {
            strings.reverse();
        }
        let numbered = strings.iter().map(|(number, _)| *number);
        assert!(numbered.eq(1..=strings.len()), "strings are numbered in their order");
        let mut neck = DrawnNeck {
            strings: strings.len(),
            frets: numbers.first()?.0..=numbers.last()?.0,
            marks: BTreeSet::new(),
            held: BTreeSet::new(),
            bars: BTreeSet::new(),
            cells: BTreeSet::new(),
            names: strings.iter().map(|(_, row)| string_name(row, lie)).collect(),
        };
        let nut = nut(&strings, lie).expect("a neck has a nut or a sign that it is scrolled");
        for ((_, row), string) in strings.into_iter().zip(1..) {
            neck.read_string(row, string, nut, &numbers, lie);
            neck.read_wood(row, string, &numbers, lie);
        }
        Some(neck)
    }

    fn read_string(
        &mut self,
        row: &[Cell],
        string: u8,
        nut: usize,
        numbers: &[(u8, usize)],
        lie: Lie,
    ) {
        let frets_right_of_nut = numbers.iter().any(|(_, column)| *column > nut);
        for found in bracketed(row, lie) {
            let open = if frets_right_of_nut { found.to < nut } else { found.from > nut };
            let fret = if open { 0 } else { fret_over(&found, numbers) };
            if found.reversed {
                self.held.insert((string, fret));
            }
            let Bracketed { which, label, root, .. } = found;
            let mark = ReadMark { string, fret, which, label, root };
            assert!(self.marks.insert(mark), "a mark stands twice");
        }
    }

    fn read_wood(&mut self, row: &[Cell], string: u8, numbers: &[(u8, usize)], lie: Lie) {
        for (fret, column) in numbers {
            if row[*column].symbol() != " " {
                self.cells.insert((string, *fret));
            }
        }
        let bars = row.iter().enumerate().filter(|(_, cell)| matches!(cell.symbol(), "║" | "H"));
        for (bar, _) in bars {
            let before = |column: usize| if lie.left_handed { column > bar } else { column < bar };
            let frets = numbers.iter().filter(|(_, column)| before(*column));
            self.bars.insert((string, frets.map(|(fret, _)| *fret).max().expect("a fret")));
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

/// The numbers of a row that holds nothing but numbers going up by one along the neck, each with
/// its column.
fn fret_numbers(row: &[Cell], lie: Lie) -> Option<Vec<(u8, usize)>> {
    let text = symbols(row);
    let mut numbers = Vec::new();
    let mut from = 0;
    for word in text.split_whitespace() {
        // In a row of digits and spaces bytes are columns.
        let column = from + text[from..].find(word)?;
        numbers.push((word.parse().ok()?, column));
        from = column + word.len();
    }
    if lie.left_handed {
        numbers.reverse();
    }
    let rising = numbers.windows(2).all(|two| two[1].0 == two[0].0 + 1);
    (rising && !numbers.is_empty()).then_some(numbers)
}

/// The words of a string's row from its number on.
fn words(row: &[Cell], lie: Lie) -> Vec<String> {
    let mut words: Vec<String> = symbols(row).split_whitespace().map(str::to_owned).collect();
    if lie.left_handed {
        words.reverse();
    }
    words
}

fn string_number(row: &[Cell], lie: Lie) -> Option<usize> {
    words(row, lie).first()?.parse().ok()
}

fn string_name(row: &[Cell], lie: Lie) -> String {
    // The root sign of an open string stands in the gap after the name.
    let word = words(row, lie)[1].clone();
    let parts: Vec<&str> = word.split(['•', '*']).collect();
    let name = if lie.left_handed { parts.last() } else { parts.first() };
    name.copied().unwrap_or_default().to_owned()
}

/// The column of the nut, or of the sign in its place: the outermost, since a short string begins
/// farther in, if it is in view at all.
fn nut(strings: &[(usize, &[Cell])], lie: Lie) -> Option<usize> {
    let columns = strings.iter().filter_map(|(_, row)| {
        let signs = |cell: &Cell| match cell.symbol() {
            "┃" | "|" => true,
            "‹" | "<" => !lie.left_handed,
            "›" | ">" => lie.left_handed,
            _ => false,
        };
        if lie.left_handed { row.iter().rposition(signs) } else { row.iter().position(signs) }
    });
    if lie.left_handed { columns.max() } else { columns.min() }
}

fn bracketed(row: &[Cell], lie: Lie) -> Vec<Bracketed> {
    let mut found = Vec::new();
    for (from, cell) in row.iter().enumerate() {
        let (which, closing) = match cell.symbol() {
            "[" => (WhichTriad::First, "]"),
            "(" => (WhichTriad::Second, ")"),
            _ => continue,
        };
        let to = from + row[from..].iter().position(|cell| cell.symbol() == closing).unwrap();
        let reversed = cell.modifier.contains(Modifier::REVERSED);
        let before = if lie.left_handed { Some(to + 1) } else { from.checked_sub(1) };
        let before = before.and_then(|column| row.get(column)).map(Cell::symbol);
        let root = matches!(before, Some("•" | "*"));
        let label = symbols(&row[from + 1..to]);
        found.push(Bracketed { from, to, which, label, reversed, root });
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
