//! The drawn neck set in signs, one sign a column and one string a row.

use std::iter::repeat_n;
use std::ops::Range;

use fretloom_fretboard::{Fret, Inlay};
use fretloom_theory::WhichTriad;

use super::columns::{Cell, NeckColumns};
use super::lie::Handed;
use super::mark::{Mark, MarkRole, Presence};
use super::neck::{NeckPicture, NeckString};
use super::run::{Ink, Run, Weight};

impl NeckPicture {
    /// Everything that is drawn in so many columns: as many frets as fit. Where two runs share a
    /// column the later one lies on top.
    #[must_use]
    pub fn runs(&self, width: u16) -> Vec<Run> {
        let columns = &self.columns(width);
        let mut sheet = Sheet { width, handed: self.handed, runs: Vec::new() };
        self.set_numbers(&mut sheet, columns);
        for (string, row) in self.strings.iter().zip(1..) {
            self.set_string(&mut sheet, columns, string, row);
        }
        self.set_inlays(&mut sheet, columns);
        sheet.runs
    }

    fn set_numbers(&self, sheet: &mut Sheet, columns: &NeckColumns) {
        for fret in columns.shown() {
            sheet.centre(columns.cell(fret), 0, fret.to_string(), Ink::Quiet);
        }
    }

    fn set_inlays(&self, sheet: &mut Sheet, columns: &NeckColumns) {
        let row = self.height() - 1;
        for fret in columns.shown() {
            let inlay = self.frets.get(usize::from(fret.number())).map(|fret| fret.inlay);
            let text = match inlay {
                Some(Inlay::Single) => "●",
                Some(Inlay::Double) => "● ●",
                Some(Inlay::Plain) | None => continue,
            };
            sheet.centre(columns.cell(fret), row, text.to_owned(), Ink::Quiet);
        }
    }

    fn set_string(&self, sheet: &mut Sheet, columns: &NeckColumns, string: &NeckString, row: u16) {
        let of_string = || self.marks.iter().filter(|mark| mark.place.string == string.number);
        sheet.write(0, row, format!("{:>2}", string.number.number()), Ink::Quiet);
        sheet.write(columns.name(), row, string.name.clone(), Ink::String);
        let mut wood = Wood::new(columns, string, self.end());
        of_string().for_each(|mark| wood.swell(columns, mark));
        wood.set(sheet, row, if string.is_quiet { Ink::Quiet } else { Ink::String });
        for mark in of_string() {
            let Some(start) = start_of(columns, mark) else { continue };
            sheet.write(start, row, text_of(mark), ink_of(mark, string));
            if is_marked_root(mark) {
                let beside = start.saturating_sub(1);
                sheet.write(beside, row, ROOT.to_owned(), ink_of(mark, string));
            }
        }
    }
}

/// The first column of a mark, behind the sign of a root; `None` where its fret is not shown. The
/// sign of an open string's stands in the gap after the string's name.
fn start_of(columns: &NeckColumns, mark: &Mark) -> Option<u16> {
    let width = width_of(mark);
    if mark.place.fret.is_open() {
        return Some(columns.open_mark().centred(width));
    }
    let sign = u16::from(is_marked_root(mark));
    Some(columns.cell(mark.place.fret)?.centred(width + sign) + sign)
}

/// A mark with the brackets of its triad.
fn text_of(mark: &Mark) -> String {
    match (mark.role, mark.presence) {
        (MarkRole::LeftOut, _) => mark.label.clone(),
        (MarkRole::Triad(_), Presence::Hidden) => "·".to_owned(),
        (MarkRole::Triad(WhichTriad::First), _) => format!("[{}]", mark.label),
        (MarkRole::Triad(WhichTriad::Second), _) => format!("({})", mark.label),
    }
}

/// How many columns a mark with its brackets takes.
fn width_of(mark: &Mark) -> u16 {
    text_of(mark).chars().count() as u16
}

/// What stands before the root of a triad, whatever its label says.
const ROOT: &str = "•";

/// A dot of a hidden note is a dot.
fn is_marked_root(mark: &Mark) -> bool {
    mark.is_root && mark.presence != Presence::Hidden
}

fn ink_of(mark: &Mark, string: &NeckString) -> Ink {
    let MarkRole::Triad(which) = mark.role else { return Ink::Quiet };
    let weight = match (mark.is_held, string.is_quiet || mark.presence == Presence::Hidden) {
        (true, _) => Weight::Held,
        (false, true) => Weight::Quiet,
        (false, false) => Weight::Plain,
    };
    Ink::Note { which, weight, stays: mark.stays }
}

/// A string from the nut on: nut, cells, wires, capo, and signs for what lies beyond the edges.
/// Behind a capo there is nothing, as before the start of a short string.
struct Wood {
    /// The column of the first sign.
    start: u16,
    /// Nothing where nothing is drawn.
    signs: Vec<Option<char>>,
}

impl Wood {
    /// `end` is the last fret of the neck.
    fn new(columns: &NeckColumns, string: &NeckString, end: Fret) -> Wood {
        let edge = match (columns.first_shown().number() > 1, string.starts_at.is_open()) {
            (true, _) => '‹',
            (false, true) => '┃',
            (false, false) => ' ',
        };
        let mut signs = vec![Some(edge)];
        let line = if string.is_quiet { '╌' } else { '─' };
        for fret in columns.shown() {
            let sounds = fret > string.sounds_from();
            let width = columns.cell(fret).map_or(0, |cell| cell.width);
            signs.extend(repeat_n(sounds.then_some(line), usize::from(width)));
            signs.push(Some(match fret {
                _ if fret == string.capo => '║',
                _ if fret == string.sounds_from() => '┃',
                _ if !sounds => ' ',
                _ if fret == end => '┤',
                _ if fret == columns.last_shown() => '›',
                _ => '┼',
            }));
        }
        Wood { start: columns.nut(), signs }
    }

    /// For eyes and printers without colour the string swells on both sides of a note in hand, and
    /// bends beside a stretch; where the mark fills its cell, at the wire.
    fn swell(&mut self, columns: &NeckColumns, mark: &Mark) {
        let beside = match (mark.is_held, mark.presence) {
            (true, _) => held,
            (false, Presence::Stretched) => bent,
            (false, Presence::Shown | Presence::Hidden) => return,
        };
        // The mark of an open string stands before the nut.
        let Some(start) = start_of(columns, mark).filter(|_| !mark.place.fret.is_open()) else {
            return;
        };
        let width = width_of(mark);
        for column in [start.saturating_sub(1), start + width] {
            let index = usize::from(column.saturating_sub(self.start));
            if let Some(Some(sign)) = self.signs.get_mut(index) {
                *sign = beside(*sign);
            }
        }
    }

    /// Writes its signs, a run for each stretch without a gap.
    fn set(&self, sheet: &mut Sheet, row: u16, ink: Ink) {
        let mut start = self.start;
        for stretch in self.signs.chunk_by(|one, next| one.is_some() == next.is_some()) {
            let signs = stretch.iter().copied().flatten();
            let text: String = match sheet.handed {
                Handed::Right => signs.collect(),
                Handed::Left => signs.rev().map(mirrored).collect(),
            };
            sheet.write(start, row, text, ink);
            start += stretch.len() as u16;
        }
    }
}

/// The string beside a note in hand; other signs stay what they are.
fn held(sign: char) -> char {
    match sign {
        '─' | '╌' => '═',
        '┼' => '╪',
        _ => sign,
    }
}

/// The string beside a stretch.
fn bent(sign: char) -> char {
    match sign {
        '─' | '╌' | '┼' => '~',
        _ => sign,
    }
}

/// A sign that points along the neck, turned to where a left-handed neck goes.
fn mirrored(sign: char) -> char {
    match sign {
        '‹' => '›',
        '›' => '‹',
        '┤' => '├',
        _ => sign,
    }
}

/// The columns that are written in.
struct Sheet {
    width: u16,
    handed: Handed,
    runs: Vec<Run>,
}

impl Sheet {
    fn centre(&mut self, cell: Option<Cell>, row: u16, text: String, ink: Ink) {
        if let Some(cell) = cell {
            self.write(cell.centred(text.chars().count() as u16), row, text, ink);
        }
    }

    /// Writes from a column of a right-handed picture on. In its mirror image the text takes the
    /// mirrored columns, and reads from left to right all the same. What leaves the width is left
    /// out.
    fn write(&mut self, column: u16, row: u16, text: String, ink: Ink) {
        let (width, length) = (i32::from(self.width), text.chars().count() as i32);
        let from = match self.handed {
            Handed::Right => i32::from(column),
            Handed::Left => width - i32::from(column) - length,
        };
        let signs = (-from).max(0)..(width - from).min(length);
        if signs.is_empty() {
            return;
        }
        let column = from.max(0) as u16;
        let text = if signs == (0..length) { text } else { cut(&text, signs) };
        self.runs.push(Run { column, row, text, ink });
    }
}

/// Some of the signs of a text.
fn cut(text: &str, signs: Range<i32>) -> String {
    text.chars().skip(signs.start as usize).take(signs.len()).collect()
}
