//! The bars of a tune as they stand on the screen, before anything is planned.

use std::ops::Range;

use fretloom_theory::{
    Chart, ChartBeat, Chord, ChordSymbol, Chorus, Meter, OptionalChords, Quarters,
};

/// The bars of a tune as they are heard, and what sounds in each.
#[derive(Clone, PartialEq, Debug, Default)]
pub(super) struct Sheet {
    pub(super) bars: Vec<SheetBar>,
    /// What sounds, bar by bar; at least one for each bar.
    pub(super) cells: Vec<Cell>,
}

/// A bar that is heard.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct SheetBar {
    /// Its number; 0 is a pick-up.
    pub(super) number: u64,
    /// Which written bar it is.
    pub(super) written: usize,
    /// The section that begins with it.
    pub(super) section: Option<Box<str>>,
    pub(super) meter: Meter,
    /// Its meter, where another one was before.
    pub(super) new_meter: Option<Meter>,
    pub(super) from: Quarters,
    pub(super) length: Quarters,
    /// Which cells are its own.
    pub(super) cells: Range<usize>,
}

/// A part of a bar in which one thing sounds.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Cell {
    /// Which bar it is in, by index.
    pub(super) bar: usize,
    pub(super) beat: ChartBeat,
    pub(super) from: Quarters,
    pub(super) sounds: Sounds,
    /// Does it begin here, or has it begun before?
    pub(super) is_new: bool,
}

/// What sounds.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Sounds {
    Chord(Chord),
    NoChord,
    /// What is written there cannot be read.
    Unread,
}

/// How many bars stand in a row.
pub(super) const BARS_A_ROW: usize = 4;

impl SheetBar {
    /// The beat of a moment in it; a pick-up begins with a later one than 1.
    pub(super) fn beat_at(&self, moment: Quarters) -> Option<ChartBeat> {
        let missing = self.meter.bar().checked_sub(self.length).filter(|_| self.number == 0);
        let into = moment.checked_sub(self.from)?.checked_add(missing.unwrap_or_default())?;
        ChartBeat::at(into, self.meter)
    }
}

impl Sheet {
    /// The bars of a chart; none where there is no chart.
    pub(super) fn of(chart: Option<&Chart>, optional: OptionalChords) -> Sheet {
        let Some(chart) = chart else { return Sheet::default() };
        let chorus = chart.chorus(optional);
        let mut settled: Vec<Quarters> =
            chart.choices.iter().filter_map(|choice| Chart::moment_of(&chorus, choice)).collect();
        settled.sort_unstable();
        let mut sheet = Sheet::default();
        let mut before = None;
        for (index, heard) in chorus.heard.iter().enumerate() {
            let Some(bar) = u64::try_from(index).ok().and_then(|index| chorus.bars.bar(index))
            else {
                break;
            };
            let first = sheet.cells.len();
            let end = heard.from.checked_add(bar.length).unwrap_or(chorus.end);
            sheet.add_cells(&chorus, &settled, (heard.from, end), index);
            sheet.bars.push(SheetBar {
                number: chorus.first_number() + index as u64,
                written: heard.written,
                section: chart.bars.bars().get(heard.written).and_then(|bar| {
                    let is_first = before.is_none_or(|(written, _)| written != heard.written);
                    bar.section().filter(|_| is_first).map(Box::from)
                }),
                meter: bar.meter,
                new_meter: before.is_some_and(|(_, meter)| meter != bar.meter).then_some(bar.meter),
                from: heard.from,
                length: bar.length,
                cells: first..sheet.cells.len(),
            });
            before = Some((heard.written, bar.meter));
        }
        sheet
    }

    /// What sounds from one moment to another.
    fn add_cells(
        &mut self,
        chorus: &Chorus,
        settled: &[Quarters],
        (from, until): (Quarters, Quarters),
        bar: usize,
    ) {
        let within = |moment: &Quarters| from < *moment && *moment < until;
        let changes = chorus.chords.changes();
        let first = changes.partition_point(|(moment, _)| *moment <= from);
        let changes = changes.iter().skip(first).map(|(moment, _)| *moment).take_while(within);
        let first = settled.partition_point(|moment| *moment <= from);
        let settled_here = settled.iter().skip(first).copied().take_while(within);
        let mut moments: Vec<Quarters> =
            [from].into_iter().chain(changes).chain(settled_here).collect();
        moments.sort_unstable();
        moments.dedup();
        for moment in moments {
            let (sounds, is_new) = sounds_at(chorus, moment);
            let is_new = is_new || settled.binary_search(&moment).is_ok();
            let beat = beat_of(chorus, moment);
            self.cells.push(Cell { bar, beat, from: moment, sounds, is_new });
        }
    }

    /// The cells in rows, bars by their index: four to a row, a new row where a section begins, and
    /// a pick-up by itself.
    pub(super) fn rows(&self, bars_a_row: usize) -> Vec<Range<usize>> {
        let mut rows: Vec<Range<usize>> = Vec::new();
        for (index, bar) in self.bars.iter().enumerate() {
            let after_pick_up = index == 1 && self.bars.first().is_some_and(|bar| bar.number == 0);
            let breaks = bar.section.is_some() || after_pick_up;
            match rows.last_mut().filter(|row| !breaks && row.len() < bars_a_row) {
                Some(row) => row.end = index + 1,
                None => rows.push(index..index + 1),
            }
        }
        rows
    }

    /// The bar of a cell.
    pub(super) fn bar_of(&self, cell: usize) -> Option<&SheetBar> {
        self.bars.get(self.cells.get(cell)?.bar)
    }

    /// The cell that sounds at a moment.
    pub(super) fn at(&self, moment: Quarters) -> Option<usize> {
        self.cells.partition_point(|cell| cell.from <= moment).checked_sub(1)
    }
}

fn sounds_at(chorus: &Chorus, moment: Quarters) -> (Sounds, bool) {
    let changes = chorus.chords.changes();
    let here = changes.partition_point(|(from, _)| *from <= moment).checked_sub(1);
    let Some((from, symbol)) = here.and_then(|here| changes.get(here)) else {
        return (Sounds::NoChord, false);
    };
    let sounds = match symbol {
        ChordSymbol::Chord(chord) => Sounds::Chord(chord.clone()),
        ChordSymbol::NoChord => Sounds::NoChord,
        ChordSymbol::Unread(_) => Sounds::Unread,
    };
    (sounds, *from == moment)
}

fn beat_of(chorus: &Chorus, moment: Quarters) -> ChartBeat {
    let at = chorus.bars.at(moment);
    let beat = at.and_then(|at| ChartBeat::at(at.into.checked_add(at.bar.missing)?, at.bar.meter));
    beat.unwrap_or(ChartBeat::FIRST)
}

#[cfg(test)]
mod tests {
    use fretloom_theory::BarText;

    use super::*;

    fn sheet(text: &str) -> Sheet {
        let bars = BarText::read(text, Meter::COMMON).unwrap();
        Sheet::of(Some(&Chart::of(bars)), OptionalChords::LeftOut)
    }

    /// What stands in a bar, `=` before what goes on.
    fn told(sheet: &Sheet, bar: usize) -> String {
        let cells = sheet.cells[sheet.bars[bar].cells.clone()].iter();
        let word = |cell: &Cell| {
            let word = match &cell.sounds {
                Sounds::Chord(chord) => chord.to_string(),
                Sounds::NoChord => "N.C.".to_owned(),
                Sounds::Unread => "?".to_owned(),
            };
            format!("{}{word}", if cell.is_new { "" } else { "=" })
        };
        cells.map(word).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn bars_are_those_that_are_heard() {
        let sheet = sheet("|: Dm7 G7 | C :| % | N.C. |");
        let bars: Vec<String> = (0..6).map(|bar| told(&sheet, bar)).collect();
        assert_eq!(bars, ["Dm7 G7", "C", "Dm7 G7", "C", "=C", "N.C."]);
        assert_eq!(sheet.bars[4].number, 5);
        assert_eq!(sheet.at(Quarters::whole(2)), Some(1));
    }

    #[test]
    fn a_row_begins_with_a_section_and_after_a_pick_up() {
        let rows = |text: &str| -> Vec<usize> {
            sheet(text).rows(BARS_A_ROW).iter().map(ExactSizeIterator::len).collect()
        };
        assert_eq!(rows("C | F | G | C | F"), [4, 1]);
        assert_eq!(rows("[A] C | F | [B] G | C | F | G | C"), [2, 4, 1]);
        assert_eq!(rows("pickup=1 | G7 | C | F | G | C"), [1, 4]);
        assert_eq!(Sheet::of(None, OptionalChords::LeftOut).rows(BARS_A_ROW), []);
    }

    /// A choice in the middle of a chord divides it.
    #[test]
    fn what_is_settled_within_a_chord_stands_by_itself() {
        let mut chart = Chart::of(BarText::read("C | F", Meter::COMMON).unwrap());
        chart.settle(fretloom_theory::ChartChoice {
            scale: Some("C Lydian".parse().unwrap()),
            ..fretloom_theory::ChartChoice::nothing(1, "3".parse().unwrap())
        });
        let sheet = Sheet::of(Some(&chart), OptionalChords::LeftOut);
        assert_eq!(told(&sheet, 0), "C C");
        assert_eq!(sheet.cells[1].beat.to_string(), "3");
    }
}
