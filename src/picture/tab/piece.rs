//! Bars with their widths, and the pieces of those that are too wide.

use fretloom_theory::{BarLabel, Quarters};

use super::bar::TabBar;
use super::cell::{BreakBefore, SetColumn, in_columns, set};
use super::look::TabLook;
use super::row::TabRowKind;

/// A bar, or as much of it as a line has room for.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    /// What stands over its beginning.
    pub(super) head: String,
    pub(super) columns: Vec<SetColumn>,
    /// With the bar line before it, in the narrowest gaps.
    pub(super) width: usize,
    /// Is it the rest of a bar?
    pub(super) goes_on: bool,
    /// Is there more of its bar?
    pub(super) is_broken: bool,
    /// Does it come before the first whole bar?
    pub(super) is_pick_up: bool,
}

impl Piece {
    fn new(head: String, columns: Vec<SetColumn>) -> Piece {
        let (goes_on, is_broken, is_pick_up) = (false, false, false);
        let mut piece = Piece { head, columns, width: 0, goes_on, is_broken, is_pick_up };
        piece.width = piece.width_in(Gap::NARROWEST);
        piece
    }

    /// Is it a whole bar?
    pub(super) fn is_whole(&self) -> bool {
        !self.goes_on && !self.is_broken
    }

    /// How wide it is, with the bar line before it. Pieces of a bar stay as narrow as they can be.
    pub(super) fn width_in(&self, gap: Gap) -> usize {
        let mut measuring = Measuring::new(self.gap(gap), &self.head);
        self.columns.iter().for_each(|column| {
            measuring.add(column);
        });
        measuring.width()
    }

    /// In which column each of its moments stands, counted from its bar line.
    pub(super) fn anchors(&self, gap: Gap) -> impl Iterator<Item = usize> {
        let mut measuring = Measuring::new(self.gap(gap), &self.head);
        self.columns.iter().map(move |column| measuring.add(column))
    }

    fn gap(&self, gap: Gap) -> Gap {
        if self.is_whole() { gap } else { Gap::NARROWEST }
    }
}

/// How many columns lie between moments at least.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Gap(usize);

impl Gap {
    /// One column, which the sign before a number takes.
    pub(super) const NARROWEST: Gap = Gap(1);
    /// Those that are tried where there is room, the narrowest first.
    pub(super) const WIDER: [Gap; 2] = [Gap(2), Gap(3)];
}

/// Where the first moment stands, counted from the bar line.
const FIRST: usize = 2;

/// A bar in one piece, or in several where it is wider than there is room.
pub(super) fn pieces(bar: &TabBar, look: &TabLook, room: usize) -> Vec<Piece> {
    let whole = Piece::new(head(bar), set(&bar.columns, look));
    if whole.width > room {
        return broken(bar, look, &whole, room);
    }
    let is_pick_up = bar.index == 0 && !bar.missing.is_zero();
    vec![Piece { is_pick_up, ..whole }]
}

/// The pieces of a bar that is too wide.
fn broken(bar: &TabBar, look: &TabLook, whole: &Piece, room: usize) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let (mut rest, mut set_rest) = (bar.columns.as_slice(), whole.columns.as_slice());
    while !rest.is_empty() {
        let goes_on = !pieces.is_empty();
        let head = if goes_on { format!("({})", label(bar)) } else { whole.head.clone() };
        let count = fitting(set_rest, room, &head);
        let (columns, later) = rest.split_at(count);
        let piece = Piece::new(head, set(columns, look));
        pieces.push(Piece { goes_on, is_broken: !later.is_empty(), ..piece });
        (rest, set_rest) = (later, set_rest.get(count..).unwrap_or_default());
    }
    pieces
}

/// How many of these columns there is room for: at least one, and up to a beat if that can be.
fn fitting(columns: &[SetColumn], room: usize, head: &str) -> usize {
    let mut measuring = Measuring::new(Gap::NARROWEST, head);
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
