//! From notes in time to bars and columns.

use fretloom_theory::{Bar, ChordSymbol, Meter, Quarters};

use super::bar::{TabBar, TabColumn, TabHold, Turn};
use super::columns::Columns;
use super::count::Count;
use super::event::TabMusic;
use super::moments::{Moment, moments};
use super::rhythm::TabRhythm;
use super::timed::Timed;

/// The bars of these notes, in order.
pub(super) fn bars(notes: &[Timed<'_>], music: &TabMusic<'_>, rhythm: TabRhythm) -> Vec<TabBar> {
    let last_end = notes.iter().map(|note| note.end.max(note.event.onset)).max();
    let has_note_at = |moment| notes.last().is_some_and(|note| note.event.onset == moment);
    let end = last_end.map_or(music.end, |end| end.max(music.end));
    let Some(last) = music.bars.at(end) else { return Vec::new() };
    let is_over = last.into.is_zero() && !has_note_at(end);
    let until = if is_over { last.index } else { last.index + 1 };
    let columns = Columns::new(notes, music);
    let mut building = Building { music, rhythm, columns, bars: Vec::new(), before: None };
    building.build(until.max(1));
    building.bars
}

/// Bars as they are built, one after another.
struct Building<'a> {
    music: &'a TabMusic<'a>,
    rhythm: TabRhythm,
    columns: Columns<'a>,
    bars: Vec<TabBar>,
    /// Meter and length of the bar before.
    before: Option<(Meter, Quarters)>,
}

impl Building<'_> {
    /// Builds the bars before the one with this index.
    fn build(&mut self, until: u64) {
        let mut index = 0;
        while index < until {
            let Some(bar) = self.music.bars.bar(index) else { return };
            let count = self.alike_from(index, &bar).min(until - index);
            let built =
                if count > 1 { self.alike(index, count, &bar) } else { self.one(index, &bar) };
            self.before = Some((bar.meter, bar.length));
            self.bars.push(built);
            index += count;
        }
    }

    /// How many bars from this one on have nothing in them that needs to be said; 1 at least.
    fn alike_from(&self, index: u64, bar: &Bar) -> u64 {
        let bars = self.music.bars;
        let marked = self.columns.next_mark(bar.from).map(|mark| bars.at(mark).map(|at| at.index));
        // A mark in a bar that cannot be told lies far behind everything.
        let marked = marked.flatten().unwrap_or(u64::MAX);
        if !self.follows(bar) {
            return 1;
        }
        let changed = bars.next_change(index).map(|change| {
            let last = bars.bar(change - 1).map(|last| last.length);
            if last == Some(bar.length) { change } else { change - 1 }
        });
        changed.unwrap_or(u64::MAX).min(marked).saturating_sub(index).max(1)
    }

    /// Is it such a bar as comes after those before it anyway?
    fn follows(&self, bar: &Bar) -> bool {
        match self.before {
            Some((meter, length)) => meter == bar.meter && (bar.is_whole() || length == bar.length),
            None => bar.is_whole(),
        }
    }

    /// Bars in which nothing begins, as one.
    fn alike(&mut self, index: u64, count: u64, bar: &Bar) -> TabBar {
        let mut columns = self.columns.at(bar.from, Count::Bars(count), true);
        if let Some(column) = columns.first_mut() {
            column.count = Count::Bars(count);
        }
        self.around(index, count, bar, columns)
    }

    fn one(&mut self, index: u64, bar: &Bar) -> TabBar {
        let marks = self.columns.marks_in(bar);
        let is_counted = self.rhythm != TabRhythm::NotCounted;
        let mut columns = Vec::new();
        for moment in moments(bar, &marks, is_counted) {
            match moment {
                Moment::At(into) => {
                    let moment = bar.from.checked_add(into).unwrap_or(bar.from);
                    let count = Count::of(bar, into);
                    columns.extend(self.columns.at(moment, count, into.is_zero()));
                }
                Moment::LeftOut => columns.extend(columns.last().map(left_out)),
            }
        }
        self.around(index, 1, bar, columns)
    }

    fn around(&self, index: u64, count: u64, bar: &Bar, columns: Vec<TabColumn>) -> TabBar {
        let whole = bar.missing.checked_add(bar.length);
        TabBar {
            label: bar.label.clone(),
            index,
            count,
            new_meter: self.before.filter(|(meter, _)| *meter != bar.meter).map(|_| bar.meter),
            odd_length: (whole != Some(bar.meter.bar())).then_some(bar.length),
            missing: bar.missing,
            columns,
        }
    }
}

/// What stands for beats that are left out: all goes on as in the column before.
fn left_out(before: &TabColumn) -> TabColumn {
    let turn = if before.turn == Turn::Begins { Turn::GoesOn } else { before.turn };
    let (chord, position, notes): (Option<ChordSymbol>, _, _) = (None, None, Vec::new());
    let held = before.held.iter().map(|hold| TabHold { tied: None, ..*hold }).collect();
    TabColumn { count: Count::LeftOut, turn, chord, position, notes, held, ..before.clone() }
}
