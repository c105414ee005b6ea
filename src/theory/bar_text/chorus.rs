//! Bars as they are heard.

use super::measure::Measure;
use super::written_bar::WrittenChord;
use crate::{Bar, BarLabel, Bars, ChordSymbol, Meter, Quarters, Timeline};

/// The bars of a text as they are heard once through, with repeats and jumps played out.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chorus {
    /// Where the bars are. They are counted from 1, a pick-up is 0; after the end the last one's
    /// like go on.
    pub bars: Bars,
    /// What sounds. A chord that is written once more is no change.
    pub chords: Timeline<ChordSymbol>,
    /// Where the chords begin that stand in brackets; none where they are left out.
    pub optional: Vec<Quarters>,
    /// The bars in order.
    pub heard: Vec<HeardBar>,
    /// When the last of them ends.
    pub end: Quarters,
}

/// A bar that is heard.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct HeardBar {
    /// When it begins.
    pub from: Quarters,
    /// Which written bar it is: how many stand before that.
    pub written: usize,
    /// The name of the section in which it is written.
    pub section: Option<Box<str>>,
}

/// What becomes of the chords in brackets.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum OptionalChords {
    /// They are played.
    Played,
    /// They are left out, and the chord before goes on.
    LeftOut,
}

/// A measure that is heard, and where it is written.
pub(super) struct HeardMeasure<'a> {
    pub(super) written: usize,
    pub(super) section: Option<&'a str>,
    pub(super) measure: &'a Measure,
}

/// Lays measures one after another in time; the first bars are of this meter.
pub(super) fn chorus<'a>(
    meter: Meter,
    measures: impl Iterator<Item = HeardMeasure<'a>>,
    optional: OptionalChords,
) -> Chorus {
    let mut laid = Laid {
        meter,
        optional,
        bars: Vec::new(),
        chords: Vec::new(),
        in_brackets: Vec::new(),
        heard: Vec::new(),
        end: Quarters::ZERO,
    };
    for heard in measures {
        laid.lay(&heard);
    }
    laid.chorus()
}

struct Laid {
    meter: Meter,
    optional: OptionalChords,
    bars: Vec<Bar>,
    chords: Vec<(Quarters, ChordSymbol)>,
    /// Where chords begin that stand in brackets.
    in_brackets: Vec<Quarters>,
    heard: Vec<HeardBar>,
    end: Quarters,
}

impl Laid {
    fn lay(&mut self, heard: &HeardMeasure<'_>) {
        let HeardMeasure { written, section, measure } = *heard;
        let from = self.end;
        self.bars.push(self.bar(measure.meter, measure.length, measure.missing));
        self.heard.push(HeardBar { from, written, section: section.map(Box::from) });
        for (into, chord) in measure.chords.iter() {
            self.chord(later(from, *into), chord);
        }
        self.end = later(from, measure.length);
        self.meter = measure.meter;
    }

    /// The bar that begins at the end.
    fn bar(&self, meter: Meter, length: Quarters, missing: Quarters) -> Bar {
        let pick_up = self.bars.first().map_or(missing, |first| first.missing);
        let first = u64::from(pick_up.is_zero());
        let label = BarLabel::Number(first + self.bars.len() as u64);
        Bar { from: self.end, length, meter, missing, label }
    }

    fn chord(&mut self, at: Quarters, chord: &WrittenChord) {
        if chord.optional && self.optional == OptionalChords::LeftOut {
            return;
        }
        if self.chords.last().is_some_and(|(_, last)| *last == chord.symbol) {
            return;
        }
        if chord.optional {
            self.in_brackets.push(at);
        }
        self.chords.push((at, chord.symbol.clone()));
    }

    fn chorus(mut self) -> Chorus {
        // After a pick-up alone whole bars go on.
        self.bars.push(self.bar(self.meter, self.meter.bar(), Quarters::ZERO));
        Chorus {
            bars: Bars::written(self.bars).unwrap_or_else(|| Bars::of(self.meter)),
            chords: Timeline::of(self.chords),
            optional: self.in_brackets,
            heard: self.heard,
            end: self.end,
        }
    }
}

/// Ten thousand bars of 255 units, with parts of at most a 64th of a pick-up of so many parts of a
/// beat, fit; so this is the sum.
fn later(moment: Quarters, by: Quarters) -> Quarters {
    moment.checked_add(by).unwrap_or(moment)
}
