//! Takes a drawn explorer apart into its blocks, as eyes do: by its rules, numbers and blank rows.

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::Style;

/// Cells that stand together: their signs with the style of each.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Field {
    pub(super) column: usize,
    pub(super) cells: Vec<(String, Style)>,
}

/// The blocks from top to bottom, each as its rows.
pub(super) struct Blocks<'a> {
    /// Chord, scale and instrument, or the field that is typed in.
    pub(super) head: Vec<&'a [Cell]>,
    /// The headings of the list, then a row for each pair.
    pub(super) list: Vec<&'a [Cell]>,
    /// The sentences about the chosen pair.
    pub(super) sentences: Vec<&'a [Cell]>,
    pub(super) rule: &'a [Cell],
    /// What is told of the shape in hand.
    pub(super) told: Vec<&'a [Cell]>,
    /// The ladders of all sets of strings, where there is room.
    pub(super) ladders: Vec<&'a [Cell]>,
    pub(super) footer: &'a [Cell],
}

impl Blocks<'_> {
    /// `strings` is how many rows of the neck there are.
    pub(super) fn of(buffer: &Buffer, strings: usize) -> Blocks<'_> {
        let rows: Vec<&[Cell]> = rows_of(buffer).collect();
        let find = |wanted: &str| rows.iter().position(|row| text(row).starts_with(wanted));
        let list = find("   pair ").unwrap();
        let rule = find("─ frets ").unwrap();
        let is_pair = |row: &&&[Cell]| text(row).starts_with([' ', '▸']) && has_marker_column(row);
        let pairs = rows[list + 1..rule].iter().take_while(is_pair).count();
        let (sentences, footer) = (list + 1 + pairs, rows.len() - 1);
        let told = rule + 1 + strings + 2;
        let blank = (told..footer).find(|row| text(rows[*row]).trim().is_empty());
        let ladders = blank.unwrap_or(footer);
        Blocks {
            head: rows[..list].to_vec(),
            list: rows[list..sentences].to_vec(),
            sentences: rows[sentences..rule].to_vec(),
            rule: rows[rule],
            told: rows[told..ladders].to_vec(),
            ladders: rows[ladders..footer].to_vec(),
            footer: rows[footer],
        }
    }
}

/// A row of the list keeps three columns for its marker; a sentence keeps one.
fn has_marker_column(row: &[Cell]) -> bool {
    let marker = text(&row[..3]);
    (marker == "   " || marker == " ▸ ") && row[3].symbol() != " "
}

pub(super) fn rows_of(buffer: &Buffer) -> impl Iterator<Item = &[Cell]> {
    buffer.content.chunks(usize::from(buffer.area.width))
}

pub(super) fn text(row: &[Cell]) -> String {
    row.iter().map(Cell::symbol).collect()
}

/// The words of rows, one after another.
pub(super) fn words(rows: &[&[Cell]]) -> Vec<Field> {
    rows.iter().flat_map(|row| fields(row, 1)).collect()
}

/// What is parted by so many spaces or more.
pub(super) fn fields(row: &[Cell], spaces: usize) -> Vec<Field> {
    let mut fields: Vec<Field> = Vec::new();
    let mut gap = spaces;
    for (column, cell) in row.iter().enumerate() {
        if cell.symbol() == " " {
            gap += 1;
            continue;
        }
        match fields.last_mut().filter(|_| gap < spaces) {
            Some(field) => {
                let passed = row[column - gap..column].iter();
                field.cells.extend(passed.chain([cell]).map(signed));
            }
            None => fields.push(Field { column, cells: vec![signed(cell)] }),
        }
        gap = 0;
    }
    fields
}

/// The style of a space cannot be seen, unless it is reversed.
fn signed(cell: &Cell) -> (String, Style) {
    let style = if cell.symbol() == " " { Style::reset() } else { cell.style() };
    (cell.symbol().to_owned(), style)
}

impl Field {
    pub(super) fn text(&self) -> String {
        self.cells.iter().map(|(sign, _)| sign.as_str()).collect()
    }

    pub(super) fn style(&self) -> Style {
        self.cells[0].1
    }

    /// Is this the other one, or the beginning of it where it was cut?
    pub(super) fn is_or_begins(&self, other: &Field) -> bool {
        match self.cells.split_last() {
            Some(((sign, _), beginning)) if sign == "…" => {
                let uncut = beginning.iter().rposition(|(sign, _)| sign != " ");
                other.cells.starts_with(&beginning[..uncut.map_or(0, |last| last + 1)])
            }
            // The last column gives way by whole phrases.
            _ => {
                self.cells == other.cells || other.text().starts_with(&format!("{}, ", self.text()))
            }
        }
    }
}
