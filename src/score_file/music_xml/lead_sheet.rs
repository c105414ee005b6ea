//! From a score to a chart: chord symbols and form become bars as players type them.
//!
//! The bars are written as text and read, so that a chart of a score is one that a player could have
//! typed. Where the marks of the form do not fit together as they must in typed bars, the bars are written
//! out in the order in which they are heard.

mod bars;
mod content;

use fretloom_theory::{
    BarFault, BarSection, BarText, Chart, Melody, Meter, Note, OptionalChords, Part, Tempo,
};

use self::bars::{SheetBar, sheet_bars, text_of_form, text_written_out};
use super::document::{self, Document};
use super::form::{self, TooMany};
use super::marks::Marks;
use super::part::keep_wanted_staff;
use super::raw_note::RawNote;
use super::reading::Found;
use super::ties::joined;
use super::time::Time;
use super::unfolding::{Measure, Unfolding};
use crate::score_file::error::{At, ScoreFileError};
use crate::score_file::lead_sheet::{LeadSheet, SheetMeasure};
use crate::score_file::locator::Locator;

/// Reads a score as a chart with a melody.
pub(in crate::score_file) fn lead_sheet(text: &str) -> Result<LeadSheet, ScoreFileError> {
    let mut document = document::read(text, None)?;
    if document.chords.is_empty() {
        let expected = "a lead sheet: MusicXML with chord symbols (harmony)";
        return Err(ScoreFileError::whole("it holds no chord symbols", expected));
    }
    keep_wanted_staff(&mut document.part);
    let order = order(&mut document, text)?;
    let sheet = sheet_bars(&document, &order);
    if sheet.bars.is_empty() {
        let expected = "measures with notes or rests, which say how long each is";
        return Err(ScoreFileError::whole("none of its measures has a length", expected));
    }
    let mut locator = Locator::new(text);
    let mut remarks: Vec<String> = sheet.moved_chords().into_iter().collect();
    let (bars, written) = match with_form(&sheet.bars, &order) {
        Ok(bars) => (bars, sheet.bars.iter().collect()),
        Err(why) => {
            let (bars, written) = written_out(&sheet.bars, &order, &mut locator)?;
            remarks.push(format!("{why}; the bars are written out as they are heard"));
            (bars, written)
        }
    };
    let measures = written.iter().map(|bar: &&SheetBar| measure(bar, &mut locator)).collect();
    let tempo = document.tempi.iter().min_by_key(|change| change.from).map(|change| change.tempo);
    let chart = Chart {
        title: document.title.take(),
        key: document.part.keys.first().map(|(_, signature)| signature.key()),
        tempo: tempo.filter(|tempo| Tempo::ASKED.contains(&tempo.a_minute())),
        ..Chart::of(bars)
    };
    let melody = melody(document, &sheet.bars, &order)?;
    Ok(LeadSheet { chart, melody, measures, remarks })
}

/// A bar where it stands in the file.
fn measure(bar: &SheetBar, locator: &mut Locator<'_>) -> SheetMeasure {
    let (line, column) = match locator.at(bar.offset) {
        At::Text { line, column } => (line, column),
        At::Whole | At::Byte { .. } => (1, 1),
    };
    SheetMeasure { name: bar.name.clone(), line, column }
}

/// The measures in the order in which they are heard.
fn order(document: &mut Document, text: &str) -> Result<Vec<usize>, ScoreFileError> {
    let Document { part, marks, .. } = document;
    let count = part.measures.len();
    let measures: Vec<Marks> =
        (0..count as u64).map(|index| marks.get(&index).cloned().unwrap_or_default()).collect();
    let has_pick_up = part.bars.first().is_some_and(|first| !first.missing.is_zero());
    form::order(&measures, usize::from(has_pick_up && count > 1))
        .map_err(|too_many| refused(too_many, part, text))
}

/// Why a score is too long, at the measure that makes it so.
fn refused(too_many: TooMany, part: &Found, text: &str) -> ScoreFileError {
    let offset = part.measures.get(too_many.measure).map_or(0, |measure| measure.offset);
    let wrong = match too_many.often() {
        Some(often) => format!("the repeat that ends in this bar is heard {often}"),
        None => "its bars or their repeats are too many".to_owned(),
    };
    ScoreFileError::new(Locator::new(text).at(offset), wrong, TooMany::EXPECTED)
}

/// The bars with their form; where typed bars cannot have it, what does not fit.
fn with_form(bars: &[SheetBar], order: &[usize]) -> Result<BarText, String> {
    let read = read_bars(&text_of_form(bars)).map_err(|fault| {
        // Each bar has a line of the text.
        let bar = bars.get(fault.error.line().map_or(0, |line| line.saturating_sub(1)));
        let name = bar.map_or("", |bar| bar.name.as_str());
        format!("bar {name}: found `{}`, expected {}", fault.word, fault.error.advice())
    })?;
    let index_of = |measure: &usize| bars.binary_search_by_key(measure, |bar| bar.measure).ok();
    let wanted = order.iter().filter_map(index_of);
    let chorus = read.unfolded(OptionalChords::Played);
    let is_same = chorus.heard.iter().map(|heard| heard.written).eq(wanted);
    if is_same { Ok(read) } else { Err("the marks of the form do not fit together".to_owned()) }
}

/// The bars one after another as they are heard.
fn written_out<'b>(
    bars: &'b [SheetBar],
    order: &[usize],
    locator: &mut Locator<'_>,
) -> Result<(BarText, Vec<&'b SheetBar>), ScoreFileError> {
    let index_of = |measure: &usize| bars.binary_search_by_key(measure, |bar| bar.measure).ok();
    let of = |measure: &usize| bars.get(index_of(measure)?);
    let heard: Vec<&SheetBar> = order.iter().filter_map(of).collect();
    let read = read_bars(&text_written_out(&heard)).map_err(|fault| {
        // Each bar has a line of the text.
        let bar = heard.get(fault.error.line().map_or(0, |line| line.saturating_sub(1)));
        let at = bar.map_or(At::Whole, |bar| locator.at(bar.offset));
        ScoreFileError::found(at, fault.word.trim_start_matches('?'), fault.error.advice())
    })?;
    Ok((read, heard))
}

fn read_bars(text: &str) -> Result<BarText, BarFault> {
    let sections = [BarSection::unnamed(text)];
    BarText::read_marking(&sections, Meter::COMMON, None).map(|(bars, _)| bars)
}

/// The notes where the bars of the chart have them.
fn melody(
    document: Document,
    bars: &[SheetBar],
    order: &[usize],
) -> Result<Melody, ScoreFileError> {
    let part = document.part;
    let mut measures: Vec<Measure> =
        part.measures.iter().map(|measure| Measure { length: Time::ZERO, ..*measure }).collect();
    for bar in bars {
        if let Some(measure) = measures.get_mut(bar.measure) {
            measure.length = Time::at(bar.length());
        }
    }
    let notes = joined(Unfolding::new(&measures, order).notes(&part.notes)?);
    let notes: Result<Vec<Note>, _> = notes.iter().map(RawNote::in_score).collect();
    Ok(Melody::of_part(&Part::new(notes?)))
}

#[cfg(test)]
mod tests;
