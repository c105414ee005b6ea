//! A track of a Standard MIDI File, formats 0 and 1.
//!
//! Tempi, meters and keys come from all tracks together. Of overlapping notes of one pitch the one
//! that began first ends first; a note that is never ended ends with its track. Notes on channel 10
//! are drums and no pitches: they are left out. Notes have no names here: they get those that are
//! usual in the key.

mod chunks;
mod clock;
mod track;

use fretloom_fretboard::Pin;
use fretloom_theory::Part;

use super::error::{At, ScoreFileError};
use super::origin::NoteOrigin;
use super::read_score::{BarsFrom, NoteSource, ReadScore};
use chunks::chunks;
use clock::Clock;
use track::{Survey, TrackNote};

/// Reads the chosen track, counted from 1; else the first with notes.
pub(super) fn read(bytes: &[u8], chosen: Option<usize>) -> Result<ReadScore, ScoreFileError> {
    let (header, tracks) = chunks(bytes)?;
    let mut survey = Survey::default();
    for (track, number) in tracks.iter().zip(1..) {
        survey.add(*track, number)?;
    }
    let number = choose(&survey, chosen)?;
    let track = tracks.get(number - 1).copied().unwrap_or_default();
    let clock = Clock::new(header.division, &survey);
    let mut notes = Vec::new();
    let mut sources = Vec::new();
    for note in track::notes(track, number)? {
        notes.push(clock.note(&note).ok_or_else(no_time)?);
        sources.push(source(&clock, &note, number));
    }
    let part = Part::new(notes).lasting(clock.moment(survey.end));
    let part = match survey.name_of(number) {
        Some(name) => part.named(name),
        None => part,
    };
    let bars_from = if clock.has_bars() { BarsFrom::File } else { BarsFrom::TwoSeconds };
    let mut score = clock.into_score();
    score.title = title(&survey);
    let read = ReadScore::of(score, part, sources)?.with_bars(bars_from);
    Ok(read.saying(remarks(&survey, number, chosen)))
}

/// The name of the first track, where it is one of all tracks together.
fn title(survey: &Survey) -> Option<String> {
    let has_notes = survey.tracks_with_notes().contains(&1);
    if has_notes { None } else { survey.name_of(1).map(str::to_owned) }
}

/// The track that is meant.
fn choose(survey: &Survey, chosen: Option<usize>) -> Result<usize, ScoreFileError> {
    let with_notes = survey.tracks_with_notes();
    let Some(first) = with_notes.first() else {
        return Err(ScoreFileError::whole("no track has notes", "at least one note"));
    };
    match chosen {
        None => Ok(*first),
        Some(number) if with_notes.contains(&number) => Ok(number),
        Some(number) => {
            let listed = alternatives(&with_notes);
            let wrong = format!("track {number} has no notes");
            Err(ScoreFileError::new(At::Whole, wrong, format!("track {listed}")))
        }
    }
}

/// `1, 2 or 5`; of many the first few.
fn alternatives(numbers: &[usize]) -> String {
    const SHOWN: usize = 8;
    let shown: Vec<String> = numbers.iter().take(SHOWN).map(ToString::to_string).collect();
    match shown.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, before)) if numbers.len() <= SHOWN => {
            format!("{} or {last}", before.join(", "))
        }
        _ => format!("{} or a later one", shown.join(", ")),
    }
}

fn remarks(survey: &Survey, number: usize, chosen: Option<usize>) -> Vec<String> {
    let mut remarks = Vec::new();
    let with_notes = survey.tracks_with_notes();
    if chosen.is_none() && with_notes.len() > 1 {
        let listed = alternatives(&with_notes);
        remarks.push(format!("several tracks have notes; took track {number} (--track {listed})"));
    }
    if survey.has_drums(number) {
        remarks.push(format!("left out the drums of track {number}, channel 10"));
    }
    remarks
}

/// No file is long enough for times that cannot be counted.
fn no_time() -> ScoreFileError {
    ScoreFileError::whole("it holds times that cannot be counted", "a line of at most a day")
}

fn source(clock: &Clock, note: &TrackNote, track: usize) -> NoteSource {
    let onset_s = clock.seconds_at(note.from_tick);
    let at = clock.position(note.from_tick);
    // The saturating cast serves: a time beyond a day is refused by the whole.
    let bar = at.as_ref().map_or((onset_s / ReadScore::BAR_S) as u64, |at| at.index);
    let at = at.map(|at| (at.index + 1, 1.0 + at.into.to_f64() / at.bar.meter.unit().to_f64()));
    NoteSource { pin: Pin::default(), bar, origin: NoteOrigin::InTrack { track, bar: at, onset_s } }
}

#[cfg(test)]
mod tests;
