//! Lines of tablature: bars beside one another, all strings below one another.

use std::collections::BTreeMap;
use std::ops::Range;

use fretloom_fretboard::StringNumber;

use super::bar::TabBar;
use super::look::TabLook;
use super::piece::{Gap, Piece, pieces};
use super::row::{Canvas, TabRow, TabRowKind};

/// A line of tablature with what stands above and below its strings.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TabSystem {
    /// From the top.
    pub rows: Vec<TabRow>,
    /// Where its notes stand, by time.
    pub spots: Vec<TabSpot>,
    /// Does it begin or end within a bar?
    pub is_broken: bool,
}

/// Where a note stands in a line of tablature.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct TabSpot {
    /// Its index among the notes that the tab was made of.
    pub event: usize,
    /// Its string.
    pub string: StringNumber,
    /// In which column its number begins, counted from 0.
    pub column: usize,
    /// How many columns its number has.
    pub width: usize,
}

/// How many bars a line has at most, a pick-up apart.
const MOST_BARS: usize = 4;

/// The lines of these bars. Each name of a string has as many signs as the others.
///
/// Four bars stand in a line, else two, else one, so that phrases keep their shape; gaps are as
/// wide as they can be without a line more.
pub(super) fn systems(
    bars: &[TabBar],
    names: &[(StringNumber, String)],
    look: &TabLook,
) -> Vec<TabSystem> {
    let label = names.iter().map(|(_, name)| name.chars().count()).max().unwrap_or_default();
    // The last bar line takes one column.
    let room = look.width.saturating_sub(label + 1);
    let pieces: Vec<Piece> = bars.iter().flat_map(|bar| pieces(bar, look, room)).collect();
    let setting = Setting::of(&pieces, room);
    let line = |line: &Range<usize>| {
        let pieces = pieces.get(line.clone()).unwrap_or_default();
        System::new(names, label, pieces, setting.gap).into_system()
    };
    setting.lines.iter().map(line).collect()
}

/// Which pieces share a line, and how far their moments lie from one another.
struct Setting {
    gap: Gap,
    /// By piece.
    widths: Vec<usize>,
    lines: Vec<Range<usize>>,
}

impl Setting {
    /// With gaps as wide as they can be without a line more.
    fn of(pieces: &[Piece], room: usize) -> Setting {
        let mut best = Setting::in_gap(pieces, Gap::NARROWEST, room);
        for gap in Gap::WIDER {
            let wider = Setting::in_gap(pieces, gap, room);
            let is_too_wide = wider.widths.iter().any(|width| *width > room);
            if is_too_wide || wider.lines.len() > best.lines.len() {
                break;
            }
            best = wider;
        }
        best
    }

    fn in_gap(pieces: &[Piece], gap: Gap, room: usize) -> Setting {
        let widths: Vec<usize> = pieces.iter().map(|piece| piece.width_in(gap)).collect();
        let mut lines = Vec::new();
        let mut from = 0;
        while let (Some(pieces @ [_, ..]), Some(widths)) = (pieces.get(from..), widths.get(from..))
        {
            let count = in_line(pieces, widths, room);
            lines.push(from..from + count);
            from += count;
        }
        Setting { gap, widths, lines }
    }
}

/// How many of these pieces the next line holds.
fn in_line(pieces: &[Piece], widths: &[usize], room: usize) -> usize {
    let pick_up = usize::from(pieces.first().is_some_and(|piece| piece.is_pick_up));
    let whole = pieces.iter().take(MOST_BARS + pick_up).take_while(|piece| piece.is_whole());
    let whole = whole.count();
    let fits = |count: &usize| widths.iter().take(*count).sum::<usize>() <= room;
    let counts = [whole, MOST_BARS / 2 + pick_up, 1 + pick_up];
    let fitting = counts.into_iter().filter(|count| (1..=whole).contains(count)).find(fits);
    fitting.unwrap_or(1)
}

/// A line that is being written.
struct System<'a> {
    names: &'a [(StringNumber, String)],
    /// Apart from the strings.
    rows: BTreeMap<TabRowKind, Canvas>,
    /// String 1 first.
    strings: Vec<Canvas>,
    spots: Vec<TabSpot>,
    is_broken: bool,
}

impl<'a> System<'a> {
    fn new(
        names: &'a [(StringNumber, String)],
        label: usize,
        pieces: &[Piece],
        gap: Gap,
    ) -> System<'a> {
        let widths: Vec<usize> = pieces.iter().map(|piece| piece.width_in(gap)).collect();
        let end = label + widths.iter().sum::<usize>();
        let string = |(_, name): &(StringNumber, String)| {
            let mut canvas = Canvas::of('-', end);
            canvas.write(0, &format!("{name:label$}"));
            canvas
        };
        let strings = names.iter().map(string).collect();
        let (rows, spots) = (BTreeMap::new(), Vec::new());
        let is_broken = pieces.iter().any(|piece| !piece.is_whole());
        let mut system = System { names, rows, strings, spots, is_broken };
        let mut from = label;
        for (piece, width) in pieces.iter().zip(widths) {
            let anchors: Vec<usize> = piece.anchors(gap).map(|anchor| from + anchor).collect();
            system.put_piece(from, piece, &anchors);
            from += width;
        }
        let is_cut = pieces.last().is_some_and(|piece| piece.is_broken);
        system.put_line(end, if is_cut { ':' } else { '|' });
        system
    }

    fn put_line(&mut self, column: usize, sign: char) {
        self.strings.iter_mut().for_each(|string| string.put(column, sign));
    }

    fn put_piece(&mut self, from: usize, piece: &Piece, anchors: &[usize]) {
        self.put_line(from, if piece.goes_on { ':' } else { '|' });
        self.row(TabRowKind::Bars).write(from, &piece.head);
        for (column, anchor) in piece.columns.iter().zip(anchors) {
            for cell in &column.cells {
                let (row, anchor) = (self.row(cell.row), *anchor);
                if let Some(sign) = cell.before {
                    row.put(anchor.saturating_sub(1), sign);
                }
                row.write(anchor, &cell.text);
                if let Some(sign) = cell.after {
                    row.put(anchor + cell.text.chars().count(), sign);
                }
            }
        }
        self.put_strings(from, piece, anchors);
    }

    fn put_strings(&mut self, from: usize, piece: &Piece, anchors: &[usize]) {
        for ((string, _), canvas) in self.names.iter().zip(&mut self.strings) {
            // Behind what stands on the string already.
            let mut free = from + 1;
            for (column, anchor) in piece.columns.iter().zip(anchors) {
                let anchor = *anchor;
                if column.held.contains(string) {
                    (free..=anchor).for_each(|place| canvas.put(place, '='));
                }
                for cell in column.frets.iter().filter(|cell| cell.string == *string) {
                    if let Some(sign) = cell.before {
                        canvas.put(anchor.saturating_sub(1), sign);
                    }
                    canvas.write(anchor, &cell.text);
                    if let Some(sign) = cell.after {
                        canvas.put(anchor + cell.text.chars().count(), sign);
                    }
                    if let Some(event) = cell.event {
                        let width = cell.text.chars().count();
                        self.spots.push(TabSpot { event, string: *string, column: anchor, width });
                    }
                    free = anchor + cell.width();
                }
            }
        }
    }

    fn row(&mut self, kind: TabRowKind) -> &mut Canvas {
        self.rows.entry(kind).or_default()
    }

    fn into_system(self) -> TabSystem {
        let strings = self.names.iter().map(|(string, _)| TabRowKind::String(*string));
        let mut rows = self.rows;
        rows.extend(strings.zip(self.strings));
        let row = |(kind, canvas): (TabRowKind, Canvas)| TabRow { kind, text: canvas.into_text() };
        let rows = rows.into_iter().map(row).filter(|row| !row.text.is_empty()).collect();
        let mut spots = self.spots;
        spots.sort_by_key(|spot| (spot.column, spot.string));
        TabSystem { rows, spots, is_broken: self.is_broken }
    }
}
