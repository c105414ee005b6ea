//! Bars with their widths, and the pieces of those that are too wide.

use fretloom_theory::{BarLabel, Quarters};

use super::bar::{TabBar, TabColumn};
use super::cell::{BreakBefore, SetColumn, in_columns, set};
use super::look::TabLook;
use super::row::TabRowKind;

/// A bar, or as much of it as a line has room for.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    /// What stands over its beginning.
    pub(super) head: String,
    pub(super) columns: Vec<SetColumn>,
    /// In which column each of its moments stands, counted from its first sign.
    pub(super) anchors: Vec<usize>,
    /// With the bar line before it.
    pub(super) width: usize,
    /// Is it the rest of a bar?
    pub(super) goes_on: bool,
    /// Is there more of its bar?
    pub(super) is_broken: bool,
    /// Does it come before the first whole bar?
    pub(super) is_pick_up: bool,
}

/// How many columns lie between moments at least.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Gap(pub(super) usize);

/// Where the first moment stands, counted from the bar line.
const FIRST: usize = 2;

/// A bar in one piece, or in several where it is wider than there is room.
pub(super) fn pieces(bar: &TabBar, look: &TabLook, gap: Gap, room: usize) -> Vec<Piece> {
    let whole = set(&bar.columns, look);
    let head = head(bar);
    let (anchors, width) = measure(&whole, gap, &head);
    let is_pick_up = bar.index == 0 && !bar.missing.is_zero();
    let (goes_on, is_broken) = (false, false);
    let whole = Piece { head, columns: whole, anchors, width, goes_on, is_broken, is_pick_up };
    if whole.width <= room { vec![whole] } else { broken(bar, look, &whole, room) }
}

/// The pieces of a bar that is too wide: as tight as can be.
fn broken(bar: &TabBar, look: &TabLook, whole: &Piece, room: usize) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let (mut rest, mut set_rest) = (bar.columns.as_slice(), whole.columns.as_slice());
    while !rest.is_empty() {
        let head = if pieces.is_empty() { whole.head.clone() } else { format!("({})", label(bar)) };
        let count = fitting(set_rest, room, &head);
        let (columns, later) = rest.split_at(count);
        let piece = piece(columns, look, head, !pieces.is_empty());
        pieces.push(Piece { is_broken: !later.is_empty(), ..piece });
        (rest, set_rest) = (later, set_rest.get(count..).unwrap_or_default());
    }
    pieces
}

fn piece(columns: &[TabColumn], look: &TabLook, head: String, goes_on: bool) -> Piece {
    let columns = set(columns, look);
    let (anchors, width) = measure(&columns, Gap(1), &head);
    Piece { head, columns, anchors, width, goes_on, is_broken: false, is_pick_up: false }
}

/// How many of these columns there is room for: at least one, and up to a beat if that can be.
fn fitting(columns: &[SetColumn], room: usize, head: &str) -> usize {
    let mut measuring = Measuring::new(Gap(1), head);
    let fits = |column: &&SetColumn| {
        measuring.add(column);
        // A bracket that is closed at the break takes one column more.
        measuring.width() < room
    };
    let count = columns.iter().take_while(fits).count();
    if count == columns.len() {
        return count;
    }
    let is_at_best = |least: BreakBefore| {
        let may = |index: &usize| columns.get(*index).is_some_and(|c| c.break_before >= least);
        (1..=count).rev().find(may)
    };
    let best = is_at_best(BreakBefore::AtBeat).or_else(|| is_at_best(BreakBefore::WithinBeat));
    best.unwrap_or(count.max(1))
}

/// The columns of moments, and the width of them all with the bar line before them.
fn measure(columns: &[SetColumn], gap: Gap, head: &str) -> (Vec<usize>, usize) {
    let mut measuring = Measuring::new(gap, head);
    let anchors = columns.iter().map(|column| measuring.add(column)).collect();
    (anchors, measuring.width())
}

/// Where the rows of a bar end, as far as it is set.
struct Measuring {
    gap: Gap,
    /// Of what every column has: numbers on strings and what belongs to them.
    moments: Option<usize>,
    chords: usize,
    positions: usize,
    head: usize,
}

impl Measuring {
    fn new(gap: Gap, head: &str) -> Measuring {
        Measuring { gap, moments: None, chords: 0, positions: 0, head: head.chars().count() }
    }

    /// In which column the next moment stands.
    fn add(&mut self, column: &SetColumn) -> usize {
        let mut anchor = self.moments.map_or(FIRST, |end| end + self.gap.0);
        for cell in &column.cells {
            if let Some(end) = self.end_of(cell.row) {
                anchor = anchor.max(*end + 1);
            }
        }
        let mut end = anchor;
        for cell in &column.cells {
            let cell_end = anchor + cell.width();
            match self.end_of(cell.row) {
                Some(end) => *end = cell_end,
                None => end = end.max(cell_end),
            }
        }
        let frets = column.frets.iter().map(|fret| anchor + fret.width()).max();
        self.moments = Some(frets.map_or(end, |frets| end.max(frets)));
        anchor
    }

    /// Where a row ends whose texts may reach over later moments.
    fn end_of(&mut self, row: TabRowKind) -> Option<&mut usize> {
        match row {
            TabRowKind::Chords => Some(&mut self.chords),
            TabRowKind::Positions => Some(&mut self.positions),
            TabRowKind::Bars
            | TabRowKind::Accents
            | TabRowKind::Strokes
            | TabRowKind::Count
            | TabRowKind::String(_)
            | TabRowKind::Fingers(_)
            | TabRowKind::Below(_) => None,
        }
    }

    /// The width of all with the bar line before them.
    fn width(&self) -> usize {
        let moments = self.moments.unwrap_or(FIRST);
        [moments, self.chords, self.positions, self.head].into_iter().max().unwrap_or(FIRST) + 1
    }
}

/// How many signs a bar's name has at most.
const LONGEST_LABEL: usize = 12;

fn label(bar: &TabBar) -> String {
    in_columns(&bar.label.to_string(), LONGEST_LABEL)
}

/// `12`, `13 3/4`, `14 (1/4)` for a bar of that length, `5-8` for several.
fn head(bar: &TabBar) -> String {
    let mut head = label(bar);
    if let (BarLabel::Number(first), true) = (&bar.label, bar.count > 1) {
        head = format!("{first}-{}", first.saturating_add(bar.count - 1));
    }
    if let Some(meter) = bar.new_meter {
        head += &format!(" {meter}");
    }
    if let Some(length) = bar.odd_length {
        head += &format!(" ({})", as_meter(length));
    }
    head
}

/// A length as the meter of a bar that is so long: `3/8`.
fn as_meter(length: Quarters) -> String {
    let above = u128::from(length.numerator());
    let whole_note = 4 * u128::from(length.denominator());
    let kind = [4, 8, 16, 32, 64, 128].into_iter().find(|kind| above * kind % whole_note == 0);
    let kind = kind.unwrap_or(whole_note);
    format!("{}/{kind}", above * kind / whole_note)
}
