//! A part of a score in MusicXML, score-partwise, 4.0 and older.
//!
//! Pitches come out as they sound, by the names that belong to what is written: `<transpose>` is
//! applied, which guitar parts carry for their octave. Tied notes are one note. Grace notes are
//! short and come before the beat. Repeats are unfolded on request; else it is said how many bars
//! that would be. `<string>` and `<fret>`
//! settle the place; they count from the capo. Where a part has a staff of tablature beside
//! another, both show the same notes, and the tablature is read. The score is read piece by piece;
//! document types are passed over and no entity is replaced but the five of XML itself.

mod attributes;
mod direction;
mod document;
mod duration;
mod form;
mod graces;
mod harmony;
mod lead_sheet;
mod marks;
mod measure;
mod names;
mod note;
mod part;
mod raw_note;
mod reading;
mod staff_tuning;
mod tempo_change;
mod ties;
mod time;
mod transposition;
mod unfolding;
mod voices;

pub(super) use lead_sheet::lead_sheet;

use fretloom_theory::{Bars, Meter, Note, Part, Score, Timeline};

use self::form::TooMany;
use self::reading::Found;
use super::choice::{Choice, Repeats};
use super::error::ScoreFileError;
use super::locator::Locator;
use super::origin::NoteOrigin;
use super::read_score::{FretsFrom, NoteSource, ReadScore};
use document::Document;
use marks::Marks;
use raw_note::RawNote;
use tempo_change::tempo_map;
use ties::joined;

/// Reads the chosen part, by its id, its number or its name; else the first one with notes.
pub(super) fn read(text: &str, choice: &Choice) -> Result<ReadScore, ScoreFileError> {
    let mut document = document::read(text, choice.part.as_deref())?;
    let repeats = heard(&mut document, choice.repeats)?;
    let Document { title, mut part, part_name, tempi, chords, mut remarks, .. } = document;
    remarks.extend(repeats);
    remarks.extend(part::keep_wanted_staff(&mut part));
    let score = Score {
        title,
        bars: Bars::written(part.bars).unwrap_or(Bars::of(Meter::COMMON)),
        tempi: tempo_map(&tempi),
        keys: Timeline::of(part.keys),
        chords: Timeline::of(chords),
        parts: Vec::new(),
    };
    let staff = part.tablature.and_then(|staff| part.tunings.remove(&staff));
    let tuning = staff.or(part.tunings.into_values().next()).unwrap_or_default();
    let (notes, sources) = in_order_of_time(&joined(part.notes), &score, text)?;
    let part = Part::new(notes).lasting(part.end);
    let part = match part_name {
        Some(name) => part.named(name),
        None => part,
    };
    let read = ReadScore::of(score, part, sources)?.counting_frets_from(FretsFrom::Capo);
    Ok(read.tuned(tuning.strings, tuning.capo).saying(remarks))
}

/// Unfolds the repeats where that is wanted; else says that there are some.
fn heard(document: &mut Document, repeats: Repeats) -> Result<Option<String>, ScoreFileError> {
    if document.marks.is_empty() {
        return Ok(None);
    }
    let Document { part, marks, .. } = document;
    let count = part.measures.len();
    let measures: Vec<Marks> =
        (0..count as u64).map(|index| marks.remove(&index).unwrap_or_default()).collect();
    let has_pick_up = part.bars.first().is_some_and(|first| !first.missing.is_zero());
    let order = match form::order(&measures, usize::from(has_pick_up && count > 1)) {
        Ok(order) => order,
        Err(too_many) => return Ok(Some(not_unfolded(too_many, part))),
    };
    if order.iter().copied().eq(0..count) {
        return Ok(None);
    }
    let noun = if count == 1 { "bar" } else { "bars" };
    let bars = format!("{count} {noun} as written, {} as heard", order.len());
    if repeats == Repeats::AsWritten {
        let told = "the part has repeats, which are not unfolded";
        return Ok(Some(format!("{told}: {bars} (--unfold)")));
    }
    document.unfold(&order)?;
    Ok(Some(format!("unfolded the repeats: {bars}")))
}

/// What is said of repeats that are too long.
fn not_unfolded(too_many: TooMany, part: &Found) -> String {
    let from = part.measures.get(too_many.measure).map(|measure| measure.from.quarters());
    let bar = from.and_then(|from| part.bars.iter().find(|bar| bar.from >= from));
    let why = match (too_many.often(), bar) {
        (Some(often), Some(bar)) => format!(" (that of bar {} is heard {often})", bar.label),
        (Some(_) | None, _) => String::new(),
    };
    let expected = TooMany::EXPECTED;
    format!("the repeats of the part are too many{why} and are not unfolded; expected {expected}")
}

/// The notes as `score` has them played one after another; what begins together stays in the order
/// of the file.
fn in_order_of_time(
    raw: &[RawNote],
    score: &Score,
    text: &str,
) -> Result<(Vec<Note>, Vec<NoteSource>), ScoreFileError> {
    let mut locator = Locator::new(text);
    let notes: Result<Vec<Note>, _> = raw.iter().map(RawNote::in_score).collect();
    let part = Part::new(notes?);
    let played = score.played(&part).into_iter().zip(part.notes());
    let mut all: Vec<_> = played.zip(raw.iter().map(|raw| source(raw, &mut locator))).collect();
    all.sort_by(|((one, _), _), ((other, _), _)| one.onset_s().total_cmp(&other.onset_s()));
    Ok(all.into_iter().map(|((_, note), source)| (note.clone(), source)).unzip())
}

fn source(raw: &RawNote, locator: &mut Locator<'_>) -> NoteSource {
    let at = locator.at(raw.offset);
    let origin = NoteOrigin::InBar { bar: raw.bar.clone(), beat: raw.beat, at };
    NoteSource { pin: raw.pin, bar: raw.bar_index, origin }
}

#[cfg(test)]
mod tests;
