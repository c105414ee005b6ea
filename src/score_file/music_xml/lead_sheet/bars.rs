//! The measures of a score as bars that are typed.

use std::collections::HashMap;
use std::fmt::Write;

use fretloom_theory::{Bar, BarSection, ChordSymbol, Meter, PickUp, Quarters};

use super::content::{Content, content};
use crate::score_file::music_xml::document::Document;
use crate::score_file::music_xml::marks::{Marks, Sign};
use crate::score_file::music_xml::unfolding::Measure;

/// A measure that has a length.
pub(super) struct SheetBar {
    /// Which measure of the file it is.
    pub(super) measure: usize,
    /// What the file calls it.
    pub(super) name: String,
    /// Where it stands in the file, in bytes.
    pub(super) offset: usize,
    meter: Meter,
    /// Where it is the first bar and shorter than its meter.
    pick_up: Option<PickUp>,
    marks: Marks,
    content: Content,
}

/// The bars of a score.
pub(super) struct SheetBars {
    pub(super) bars: Vec<SheetBar>,
}

impl SheetBar {
    /// How long it is in the chart: as in the file, where a meter can say that.
    pub(super) fn length(&self) -> Quarters {
        let short = self.pick_up.and_then(|pick_up| pick_up.length(self.meter));
        short.unwrap_or(self.meter.bar())
    }
}

impl SheetBars {
    /// What is said of chords that begin between beats.
    pub(super) fn moved_chords(&self) -> Option<String> {
        match self.bars.iter().map(|bar| bar.content.moved).sum::<usize>() {
            0 => None,
            1 => Some("one chord that begins between beats stands on the nearest beat".to_owned()),
            count => {
                Some(format!("{count} chords that begin between beats stand on the nearest beats"))
            }
        }
    }
}

/// The bars of the measures, each with what sounds there when it is first heard.
pub(super) fn sheet_bars(document: &Document, order: &[usize]) -> SheetBars {
    let mut chords = document.chords.clone();
    chords.sort_by_key(|(at, _)| *at);
    let stretches = stretches(document, &chords);
    let carried = carried(&stretches, order);
    let bars = document.part.measures.iter().enumerate().zip(&stretches);
    let bars = bars.filter_map(|((index, measure), stretch)| {
        let Stretch { bar: Some(bar), chords } = stretch else { return None };
        let (meter, pick_up) = meter(bar, index == 0);
        let marks = document.marks.get(&(index as u64)).cloned().unwrap_or_default();
        let from = carried.get(&index).cloned().unwrap_or(ChordSymbol::NoChord);
        let length = pick_up.and_then(|pick_up| pick_up.length(meter)).unwrap_or(meter.bar());
        let content = content(chords, &from, length, meter);
        Some(SheetBar {
            measure: index,
            name: bar.label.to_string(),
            offset: measure.offset,
            meter,
            pick_up,
            marks,
            content,
        })
    });
    SheetBars { bars: bars.collect() }
}

/// A measure with its chords, each with how long after its beginning it begins.
struct Stretch<'d> {
    /// `None` for a measure without length.
    bar: Option<&'d Bar>,
    chords: Vec<(Quarters, ChordSymbol)>,
}

fn stretches<'d>(document: &'d Document, chords: &[(Quarters, ChordSymbol)]) -> Vec<Stretch<'d>> {
    let part = &document.part;
    let of = |measure: &Measure| {
        let (from, length) = (measure.from.quarters(), measure.length.quarters());
        let end = measure.from.plus(measure.length).quarters();
        let bar = part.bars.get(part.bars.partition_point(|bar| bar.from < from));
        let first = chords.partition_point(|(at, _)| *at < from);
        let here = chords.iter().skip(first).take_while(|(at, _)| *at < end);
        let after = |at: &Quarters| at.checked_sub(from).unwrap_or_default();
        let mut here: Vec<_> = here.map(|(at, symbol)| (after(at), symbol.clone())).collect();
        here.dedup_by_key(|(at, _)| *at);
        Stretch { bar: bar.filter(|_| !length.is_zero()), chords: here }
    };
    part.measures.iter().map(of).collect()
}

/// What sounds when each measure is first heard, before its own chords.
fn carried(stretches: &[Stretch<'_>], order: &[usize]) -> HashMap<usize, ChordSymbol> {
    let mut carried = HashMap::new();
    let mut sounding = ChordSymbol::NoChord;
    for measure in order {
        carried.entry(*measure).or_insert_with(|| sounding.clone());
        let last = stretches.get(*measure).and_then(|stretch| stretch.chords.last());
        sounding = last.map_or(sounding, |(_, symbol)| symbol.clone());
    }
    // What is never heard is written all the same.
    for (measure, stretch) in stretches.iter().enumerate() {
        if let Some((_, symbol)) = stretch.chords.first() {
            carried.entry(measure).or_insert_with(|| symbol.clone());
        }
    }
    carried
}

/// The meter that a bar of this length is written in, and how much of it there is where it is a pick-up.
fn meter(bar: &Bar, is_first: bool) -> (Meter, Option<PickUp>) {
    if bar.is_whole() {
        return (bar.meter, None);
    }
    let short = is_first && !bar.missing.is_zero();
    if let Some(pick_up) = pick_up(bar).filter(|_| short) {
        return (bar.meter, Some(pick_up));
    }
    let kinds = [1, 2, 4, 8, 16].into_iter().filter(|kind| *kind >= bar.meter.kind());
    let as_long = |kind: u8| {
        let units =
            Quarters::new(4, u32::from(kind)).and_then(|unit| bar.length.divided_with_rest(unit));
        let (units, rest) = units?;
        Meter::new(u8::try_from(units).ok().filter(|_| rest.is_zero())?, kind)
    };
    (kinds.into_iter().find_map(as_long).unwrap_or(bar.meter), None)
}

fn pick_up(bar: &Bar) -> Option<PickUp> {
    (1..=16).find_map(|parts: u8| {
        let part = bar.meter.beat().divided_into(u32::from(parts))?;
        let (count, rest) = bar.length.divided_with_rest(part)?;
        PickUp::new(u8::try_from(count).ok().filter(|_| rest.is_zero())?, parts)
    })
}

/// The bars with repeats, endings and jumps.
pub(super) fn text_of_form(bars: &[SheetBar]) -> String {
    let has = |sign: Sign| bars.iter().any(|bar| bar.marks.has(sign));
    let until = if has(Sign::ToCoda) && has(Sign::Coda) {
        "alCoda"
    } else if has(Sign::Fine) {
        "alFine"
    } else {
        ""
    };
    let coda = bars.iter().rposition(|bar| bar.marks.has(Sign::Coda));
    let mut text = Text::default();
    for (index, bar) in bars.iter().enumerate() {
        text.begin(bar, bar.marks.has(Sign::RepeatBegins));
        text.opening(bar, coda == Some(index));
        text.words.push_str(&bar.content.words);
        for (sign, word) in [(Sign::ToCoda, "ToCoda"), (Sign::Fine, "Fine")] {
            text.closing(bar, sign, word);
        }
        text.closing(bar, Sign::DaCapo, &format!("D.C.{until}"));
        text.closing(bar, Sign::DalSegno, &format!("D.S.{until}"));
        text.repeat_ends(bar, bars, index);
    }
    text.finished()
}

/// The bars one after another.
pub(super) fn text_written_out(bars: &[&SheetBar]) -> String {
    let mut text = Text::default();
    for bar in bars {
        text.begin(bar, false);
        text.section(bar);
        text.words.push_str(&bar.content.words);
        text.words.push_str(" |");
    }
    text.finished()
}

/// Bars as they are typed, so far.
#[derive(Default)]
struct Text {
    pick_up: String,
    words: String,
    meter: Option<Meter>,
}

impl Text {
    fn begin(&mut self, bar: &SheetBar, repeat: bool) {
        if let Some(pick_up) = bar.pick_up.filter(|_| self.words.is_empty()) {
            self.pick_up = format!("pickup={pick_up} ");
        }
        self.words.push_str(if repeat { "\n|: " } else { "\n| " });
        if self.meter != Some(bar.meter) {
            let _ = write!(self.words, "{} ", bar.meter);
            self.meter = Some(bar.meter);
        }
    }

    fn section(&mut self, bar: &SheetBar) {
        if let Some(name) = bar.marks.rehearsal.as_deref().and_then(BarSection::name_in_brackets) {
            let _ = write!(self.words, "[{name}] ");
        }
    }

    fn opening(&mut self, bar: &SheetBar, is_coda: bool) {
        self.section(bar);
        for pass in bar.marks.ending.all() {
            let _ = write!(self.words, "{pass}. ");
        }
        if bar.marks.has(Sign::Segno) {
            self.words.push_str("Segno ");
        }
        if is_coda {
            self.words.push_str("Coda ");
        }
    }

    fn closing(&mut self, bar: &SheetBar, sign: Sign, word: &str) {
        if bar.marks.has(sign) {
            let _ = write!(self.words, " {word}");
        }
    }

    /// How often is said where no endings say it.
    fn repeat_ends(&mut self, bar: &SheetBar, bars: &[SheetBar], index: usize) {
        let in_ending = || {
            let before = bars.iter().take(index).rev();
            let mut before = before.take_while(|before| before.marks.repeat_ends.is_none());
            !bar.marks.ending.is_empty() || before.any(|before| !before.marks.ending.is_empty())
        };
        match bar.marks.repeat_ends {
            None => self.words.push_str(" |"),
            Some(times) if times > 2 && !in_ending() => {
                let _ = write!(self.words, " :|{times}");
            }
            Some(_) => self.words.push_str(" :|"),
        }
    }

    fn finished(self) -> String {
        format!("{}{}", self.pick_up, self.words.trim_start())
    }
}
