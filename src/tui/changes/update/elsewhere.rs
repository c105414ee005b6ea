//! From a bar to the other screens: the explorer on its chord, a line over it or from it on.

use fretloom_theory::{Meter, Pitch};

use super::super::sheet::{Cell, SheetBar, Sounds};
use super::super::state::ChangesScreen;
use crate::answer::ChangesChord;
use crate::tui::line_place::{ChordSeed, LinePlace, LineSeed};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

/// A line goes over so many bars at most.
const MOST_BARS: usize = 64;

impl ChangesScreen {
    /// The chord in hand with its scale and its pair, in the explorer.
    pub(super) fn explore_chord(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.chord() {
            Some(chord) => vec![ScreenEffect::Explore(seed_of(chord))],
            None => tell_no_chord(shared),
        }
    }

    /// A line of the pair in hand over its chord.
    pub(super) fn make_line(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let Some(chord) = self.chord() else { return tell_no_chord(shared) };
        let place = LinePlace::of_hand_area(self.chosen.area);
        let seed = LineSeed::of(seed_of(chord), place, lowest(chord));
        vec![ScreenEffect::MakeLine(seed)]
    }

    /// A line from the bar in hand to the end of its section.
    pub(super) fn make_line_on(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let Some(first) = self.cell().map(|cell| cell.bar) else { return tell_no_chord(shared) };
        let bars = self.sheet.bars.get(first..).unwrap_or_default();
        let later = bars.iter().skip(1).take_while(|bar| bar.section.is_none()).count();
        let near = self.chord().and_then(lowest);
        self.make_line_over(bars.get(..=later).unwrap_or_default(), near, shared)
    }

    /// A line over the whole tune.
    pub(super) fn make_line_through(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let first = self.plan().and_then(|plan| plan.chords.first());
        self.make_line_over(&self.sheet.bars, first.and_then(lowest), shared)
    }

    /// A line over some bars, as many as a line may have, that begins near a note.
    fn make_line_over(
        &self,
        bars: &[SheetBar],
        near: Option<Pitch>,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        let all = bars.len();
        let bars = bars.get(..MOST_BARS).unwrap_or(bars);
        let mut each: Vec<ChordSeed> = Vec::new();
        let cells = bars.iter().filter_map(|bar| self.sheet.cells.get(bar.cells.clone())).flatten();
        for (index, cell) in cells.enumerate() {
            let Some((_, chord)) = self.planned(cell) else { continue };
            let seed = seed_of(chord);
            // What is typed once more is no change.
            let goes_on = each.last().is_some_and(|last| last.symbol == seed.symbol);
            if (index == 0 || cell.is_new) && !goes_on {
                each.push(seed);
            }
        }
        if each.is_empty() {
            return tell_no_chord(shared);
        }
        let chords = bars.iter().enumerate().map(|(index, bar)| self.typed(bar, index == 0));
        let chords = chords.collect::<Vec<_>>().join(" | ");
        if all > bars.len() {
            shared.tell(format!("a line over the first {MOST_BARS} of these {all} bars"));
        }
        let place = LinePlace::of_hand_area(self.chosen.area);
        vec![ScreenEffect::MakeLine(LineSeed { chords, each, place, near })]
    }

    /// A bar as it is typed by itself, after the name of the section that begins there: one sign a beat
    /// where its chords do not share it evenly.
    fn typed(&self, bar: &SheetBar, is_first: bool) -> String {
        let cells = self.sheet.cells.get(bar.cells.clone()).unwrap_or_default();
        let section = bar.section.as_ref().map(|name| format!("[{name}] ")).unwrap_or_default();
        let meter = if is_first || bar.new_meter.is_some() { meter_of(bar) } else { String::new() };
        let begins = section + &meter;
        let words: Vec<String> = cells.iter().map(typed_chord).collect();
        let at = |cell: &Cell| cell.from.checked_sub(bar.from).unwrap_or_default().to_f64();
        let share = bar.length.to_f64() / cells.len().max(1) as f64;
        let evenly = cells
            .iter()
            .enumerate()
            .all(|(index, cell)| (at(cell) - share * index as f64).abs() < f64::EPSILON);
        if evenly {
            return begins + &words.join(" ");
        }
        let beat = bar.meter.beat().to_f64();
        let mut beats = vec!["/".to_owned(); (bar.length.to_f64() / beat).round() as usize];
        for (cell, word) in cells.iter().zip(words) {
            if let Some(sign) = beats.get_mut((at(cell) / beat).floor() as usize) {
                *sign = word;
            }
        }
        begins + &beats.join(" ")
    }
}

/// `3/4 `; nothing for the usual one.
fn meter_of(bar: &SheetBar) -> String {
    if bar.meter == Meter::COMMON && bar.new_meter.is_none() {
        String::new()
    } else {
        format!("{} ", bar.meter)
    }
}

/// A chord that goes on is typed once more, which is no change.
fn typed_chord(cell: &Cell) -> String {
    match &cell.sounds {
        Sounds::Chord(chord) => format!("{chord:#}"),
        Sounds::NoChord | Sounds::Unread => "N.C.".to_owned(),
    }
}

fn seed_of(chord: &ChangesChord) -> ChordSeed {
    ChordSeed {
        symbol: format!("{:#}", chord.chord()),
        scale: format!("{:#}", chord.over().scale()),
        pair: format!("{:#}", chord.pair),
    }
}

/// The lowest note of the shape in hand.
fn lowest(chord: &ChangesChord) -> Option<Pitch> {
    chord.hand.map(|hand| hand.shape.shape.pitches()).into_iter().flatten().min()
}

fn tell_no_chord(shared: &mut Shared) -> Vec<ScreenEffect> {
    shared.tell("no chord with a pair sounds here");
    Vec::new()
}
