//! Tablature: a way to play a line, drawn.
//!
//! String 1 is on top, as tablature is written. Above stands where the hand goes, as a Roman
//! numeral; below stand the fingers. Frets and positions count from the capo.

use std::iter;

use fretloom_fretboard::{HandPosition, StringNumber, Tuning};

use crate::answer::{FingeredAnswer, WayAnswer};
use crate::score_file::ReadScore;

/// How wide a block may be.
const WIDTH: usize = 80;

/// Notes that begin within so many seconds of one another sound together.
const TOGETHER_S: f64 = 0.03;

/// What stands in one column of a block.
#[derive(Default)]
struct Column {
    /// Where the hand stands.
    position: u8,
    bar: u64,
    onset_s: f64,
    /// String, fret from the capo, finger.
    notes: Vec<(u8, u8, u8)>,
}

/// Blocks of tablature, each at most 80 columns wide.
pub(super) fn tab(tuning: &Tuning, score: &ReadScore, way: &WayAnswer) -> String {
    let columns = columns(tuning, score, &way.notes);
    let frets = columns.iter().flat_map(|column| &column.notes).map(|(_, fret, _)| *fret);
    let cell = if frets.max().unwrap_or_default() > 9 { 2 } else { 1 };
    let mut rest = columns.as_slice();
    let mut blocks = Vec::new();
    while !rest.is_empty() {
        let mut block = Block::new(tuning, cell);
        let taken = rest.iter().take_while(|column| block.take(column)).count().max(1);
        blocks.push(block.into_text());
        rest = rest.get(taken..).unwrap_or_default();
    }
    blocks.join("\n")
}

/// The notes by time, those together that sound together.
fn columns(tuning: &Tuning, score: &ReadScore, fingered: &[FingeredAnswer]) -> Vec<Column> {
    let mut notes: Vec<_> = score.notes().zip(fingered).collect();
    notes.sort_by(|(one, _), (other, _)| one.time.onset_s().total_cmp(&other.time.onset_s()));
    let capo = tuning.capo().fret().number();
    let mut columns: Vec<Column> = Vec::new();
    for (read, fingered) in notes {
        let onset_s = read.time.onset_s();
        let string = fingered.place.string.number();
        let note = (string, fingered.tab.number(), fingered.finger.number());
        match columns.last_mut() {
            Some(last) if last.has_room(onset_s, string) => last.notes.push(note),
            _ => columns.push(Column {
                position: fingered.position.number().saturating_sub(capo).max(1),
                bar: read.source.bar,
                onset_s,
                notes: vec![note],
            }),
        }
    }
    columns.iter_mut().for_each(|column| column.notes.sort_unstable());
    columns
}

impl Column {
    /// Does a note on `string` that begins then sound together with it?
    fn has_room(&self, onset_s: f64, string: u8) -> bool {
        onset_s - self.onset_s <= TOGETHER_S
            && self.notes.iter().all(|(other, ..)| *other != string)
    }
}

/// A block that grows to the right.
struct Block {
    cell: usize,
    position: u8,
    bar: Option<u64>,
    positions: String,
    /// From string 1.
    strings: Vec<String>,
    fingers: Vec<String>,
    width: usize,
}

impl Block {
    fn new(tuning: &Tuning, cell: usize) -> Block {
        let open = StringNumber::up_to(tuning.string_count()).filter_map(|number| {
            tuning.string(number).map(|open| format!("{number:>2} {}", open.note().name()))
        });
        let names: Vec<String> = open.collect();
        let width = names.iter().map(|name| name.chars().count()).max().unwrap_or_default();
        let strings = names.iter().map(|name| format!("{name:width$} |")).collect();
        let (positions, fingers) = (String::new(), Vec::new());
        Block { cell, position: 0, bar: None, positions, strings, fingers, width: width + 2 }
    }

    /// Adds a column where there is room for it, and for the line that closes the block.
    fn take(&mut self, column: &Column) -> bool {
        let moves = column.position != self.position;
        let roman = if moves { roman(column.position) } else { String::new() };
        let bar_line = self.bar.is_some_and(|bar| bar != column.bar);
        let width = (self.cell + 1).max(roman.chars().count() + 1);
        if self.width + usize::from(bar_line) + width + 2 > WIDTH {
            return false;
        }
        if bar_line {
            self.strings.iter_mut().for_each(|string| string.push('|'));
            self.width += 1;
        }
        self.put(column, &roman, width);
        (self.position, self.bar) = (column.position, Some(column.bar));
        true
    }

    fn put(&mut self, column: &Column, roman: &str, width: usize) {
        if !roman.is_empty() {
            pad(&mut self.positions, self.width + 1);
            self.positions.push_str(roman);
        }
        for (string, number) in self.strings.iter_mut().zip(1u8..) {
            let note = column.notes.iter().find(|(on, ..)| *on == number);
            let fret = note.map(|(_, fret, _)| fret.to_string()).unwrap_or_default();
            let cell = format!("-{fret:->cell$}", cell = self.cell);
            string.push_str(&format!("{cell:-<width$}"));
        }
        for (row, (.., finger)) in column.notes.iter().enumerate() {
            if row == self.fingers.len() {
                self.fingers.push(String::new());
            }
            if let Some(line) = self.fingers.get_mut(row) {
                pad(line, self.width + self.cell);
                line.push_str(&finger.to_string());
            }
        }
        self.width += width;
    }

    fn into_text(self) -> String {
        let strings = self.strings.into_iter().map(|string| string + "-|");
        let lines = iter::once(self.positions).chain(strings).chain(self.fingers);
        lines.map(|line| line + "\n").collect()
    }
}

/// Spaces up to a width.
fn pad(line: &mut String, width: usize) {
    line.extend(iter::repeat_n(' ', width.saturating_sub(line.chars().count())));
}

fn roman(position: u8) -> String {
    HandPosition::new(position).map(|position| position.to_string()).unwrap_or_default()
}
