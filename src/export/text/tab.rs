//! Tablature as text.

use std::iter;

use crate::picture::{Tab, TabColumn, TabNote, TabString};
use fretloom_fretboard::HandPosition;

/// How many columns a block has at most.
const WIDTH: usize = 80;

/// A line as blocks of tablature, each at most 80 columns wide.
///
/// Above the strings stands where the hand goes, as a Roman numeral; below them stand the fingers.
#[must_use]
pub fn tab(tab: &Tab) -> String {
    let cell = digits(tab);
    let mut rest = tab.columns.as_slice();
    let mut blocks = Vec::new();
    while !rest.is_empty() {
        let mut block = Block::new(&tab.strings, cell);
        let taken = rest.iter().take_while(|column| block.take(column)).count().max(1);
        blocks.push(block.into_text());
        rest = rest.get(taken..).unwrap_or_default();
    }
    blocks.join("\n")
}

/// One column of tablature without the hand: the strings alone.
///
/// Frets are set from the left and names have two columns, which is how a single shape is written
/// by hand; the blocks of a line set them from the right, so that their columns stay in step.
#[must_use]
pub fn shape_tab(tab: &Tab) -> String {
    let cell = digits(tab);
    let line = |string: &TabString| {
        let note = tab.columns.iter().find_map(|column| column.on(string.number));
        let fret = written(note);
        format!("{:<5}|-{fret:-<cell$}-|\n", name(string))
    };
    tab.strings.iter().map(line).collect()
}

/// ` 3 G`
fn name(string: &TabString) -> String {
    format!("{:>2} {}", string.number.number(), string.name)
}

/// The fret of a note; nothing where there is none.
fn written(note: Option<TabNote>) -> String {
    note.map(|note| note.fret.to_string()).unwrap_or_default()
}

/// How many digits the frets have at most.
fn digits(tab: &Tab) -> usize {
    tab.highest_fret().to_string().len()
}

/// A block that grows to the right.
struct Block<'a> {
    names: &'a [TabString],
    cell: usize,
    position: Option<HandPosition>,
    bar: Option<u64>,
    positions: String,
    /// From string 1.
    strings: Vec<String>,
    fingers: Vec<String>,
    width: usize,
}

impl<'a> Block<'a> {
    fn new(names: &'a [TabString], cell: usize) -> Block<'a> {
        let written: Vec<String> = names.iter().map(name).collect();
        let width = written.iter().map(|name| name.chars().count()).max().unwrap_or_default();
        Block {
            names,
            cell,
            position: None,
            bar: None,
            positions: String::new(),
            strings: written.iter().map(|name| format!("{name:width$} |")).collect(),
            fingers: Vec::new(),
            width: width + 2,
        }
    }

    /// Adds a column where there is room for it, and for the line that closes the block.
    fn take(&mut self, column: &TabColumn) -> bool {
        let moves = self.position != Some(column.position);
        let position = if moves { column.position.to_string() } else { String::new() };
        let bar_line = self.bar.is_some_and(|bar| bar != column.bar);
        let width = (self.cell + 1).max(position.chars().count() + 1);
        if self.width + usize::from(bar_line) + width + 2 > WIDTH {
            return false;
        }
        if bar_line {
            self.strings.iter_mut().for_each(|string| string.push('|'));
            self.width += 1;
        }
        self.put_position(&position);
        self.put_frets(column, width);
        self.put_fingers(column);
        self.width += width;
        (self.position, self.bar) = (Some(column.position), Some(column.bar));
        true
    }

    fn put_position(&mut self, position: &str) {
        if !position.is_empty() {
            pad(&mut self.positions, self.width + 1);
            self.positions.push_str(position);
        }
    }

    fn put_frets(&mut self, column: &TabColumn, width: usize) {
        let digits = self.cell;
        for (line, string) in self.strings.iter_mut().zip(self.names) {
            let fret = written(column.on(string.number));
            let cell = format!("-{fret:->digits$}");
            line.push_str(&format!("{cell:-<width$}"));
        }
    }

    fn put_fingers(&mut self, column: &TabColumn) {
        let rows = self.fingers.len().max(column.notes.len());
        self.fingers.resize_with(rows, String::new);
        for (line, note) in self.fingers.iter_mut().zip(&column.notes) {
            if let Some(finger) = note.finger {
                pad(line, self.width + self.cell);
                line.push_str(&finger.number().to_string());
            }
        }
    }

    fn into_text(self) -> String {
        let strings = self.strings.into_iter().map(|string| string + "-|");
        let lines = iter::once(self.positions).chain(strings).chain(self.fingers);
        lines.map(|line| line + "\n").collect()
    }
}

/// Adds spaces up to a width.
fn pad(line: &mut String, width: usize) {
    line.extend(iter::repeat_n(' ', width.saturating_sub(line.chars().count())));
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Finger, Fret, Neck, ShapeQuery, StringNumber, Tuning};
    use fretloom_theory::SpelledTriad;

    use super::*;
    use crate::picture::TabEvent;

    /// A note at that moment in that bar, by the first finger.
    fn event(moment: usize, bar: u64, string: u8, fret: u8) -> TabEvent {
        let note = TabNote {
            string: StringNumber::new(string).unwrap(),
            fret: Fret::new(fret).unwrap(),
            finger: Some(if fret == 0 { Finger::Open } else { Finger::First }),
        };
        TabEvent { moment, bar, position: HandPosition::new(fret.max(1)).unwrap(), note }
    }

    #[test]
    fn columns_of_one_and_two_digits_stay_in_step() {
        let tuning = Tuning::read("G C E A").unwrap();
        let events =
            vec![event(2, 1, 4, 0), event(0, 0, 1, 9), event(1, 0, 2, 12), event(1, 0, 1, 12)];
        let expected = [
            "       IX XII  I",
            " 1 A |--9-12-|----|",
            " 2 E |----12-|----|",
            " 3 C |-------|----|",
            " 4 G |-------|--0-|",
            "        1  1    0",
            "           1",
        ];
        let text = tab(&Tab::of_line(&tuning, events));
        assert_eq!(text.lines().collect::<Vec<_>>(), expected);
    }

    #[test]
    fn a_line_is_broken_before_it_is_too_wide() {
        let tuning = Tuning::read("E A D G B E").unwrap();
        let events = (0..200).map(|at| event(at, 0, 1, 3)).collect();
        let text = tab(&Tab::of_line(&tuning, events));
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        let notes = |line: &&str| line.starts_with(" 1 E");
        let played = text.lines().filter(notes).flat_map(str::chars).filter(|sign| *sign == '3');
        assert_eq!(played.count(), 200);
    }

    #[test]
    fn a_shape_is_set_from_the_left() {
        let neck = Neck::new(Tuning::read("Eb A D G B E").unwrap());
        let f: SpelledTriad = "F".parse().unwrap();
        let query = ShapeQuery::default().on("3-2-1".parse().unwrap());
        let shapes = query.shapes(&neck, f.triad());
        let shape = shapes.iter().find(|shape| shape.frets()[0].number() == 10).unwrap();
        let expected =
            " 1 E |-8--|\n 2 B |-10-|\n 3 G |-10-|\n 4 D |----|\n 5 A |----|\n 6 E♭|----|\n";
        assert_eq!(shape_tab(&Tab::of_shape(&neck, shape)), expected);
    }
}
