//! A track of a Standard MIDI File, formats 0 and 1.
//!
//! Tempi, meters and keys come from all tracks together. Of overlapping notes of one pitch the one
//! that began first ends first; a note that is never ended ends with its track. A track that cannot be
//! read to its end is left out where another one has notes, which is said. Notes on channel 10
//! are drums and no pitches: they are left out. Notes have no names here: they get those that are
//! usual in the key.

mod chunks;
mod clock;
mod track;

use fretloom_fretboard::Pin;
use fretloom_theory::Part;

use super::error::ScoreFileError;
use super::offer::{Offer, listed, meant};
use super::origin::NoteOrigin;
use super::read_score::{BarsFrom, NoteSource, ReadScore};
use chunks::{Chunks, chunks};
use clock::Clock;
use track::{Survey, TrackNote};

/// Reads the chosen track, by its number or its name; else the first with notes.
pub(super) fn read(bytes: &[u8], chosen: Option<&str>) -> Result<ReadScore, ScoreFileError> {
    let Chunks { header, tracks, cut } = chunks(bytes)?;
    let mut survey = Survey::default();
    for (track, number) in tracks.iter().zip(1..) {
        survey.add(*track, number);
    }
    let offers = survey.offers();
    if let Some(cut) = cut.as_ref().filter(|_| offers.is_empty()) {
        return Err(cut.clone());
    }
    let number = choose(&survey, &offers, chosen)?;
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
    let taken = chosen.is_none().then_some(number);
    let remarks = told(&offers, taken).into_iter().chain(drums(&survey, number));
    Ok(read.saying(remarks.chain(survey.damage_told()).chain(cut.as_ref().map(cut_told)).collect()))
}

/// The name of the first track, where it is one of all tracks together.
fn title(survey: &Survey) -> Option<String> {
    if survey.has_notes(1) { None } else { survey.name_of(1).map(str::to_owned) }
}

/// The track that is meant.
fn choose(
    survey: &Survey,
    offers: &[Offer],
    chosen: Option<&str>,
) -> Result<usize, ScoreFileError> {
    let Some(first) = offers.first() else {
        let damage = survey.damage().cloned();
        let none = || ScoreFileError::whole("no track has notes", "at least one note");
        return Err(damage.unwrap_or_else(none));
    };
    let Some(chosen) = chosen else { return Ok(first.number) };
    let called: Vec<_> = offers.iter().map(Offer::called).collect();
    match *meant(chosen, &called) {
        [number] => Ok(number),
        [] => {
            let damage = chosen.parse().ok().and_then(|number| survey.damage_of(number)).cloned();
            Err(damage.unwrap_or_else(|| not_there(chosen, offers)))
        }
        [_, _, ..] => {
            let wrong = format!("several tracks are called {chosen}");
            let expected = format!("the number of one: {}", listed(offers));
            Err(ScoreFileError::whole(wrong, expected))
        }
    }
}

fn not_there(chosen: &str, offers: &[Offer]) -> ScoreFileError {
    let expected = format!("the number or the name of one: {}", listed(offers));
    ScoreFileError::whole(format!("there is no track {chosen} with notes"), expected)
}

/// Which track was taken of several, and what else there is.
fn told(offers: &[Offer], taken: Option<usize>) -> Option<String> {
    let number = taken.filter(|_| offers.len() > 1)?;
    let listed = listed(offers);
    Some(format!("several tracks have notes; took track {number} (--track chooses: {listed})"))
}

fn drums(survey: &Survey, number: usize) -> Option<String> {
    let has_drums = survey.has_drums(number);
    has_drums.then(|| format!("left out the drums of track {number}, channel 10"))
}

fn cut_told(cut: &ScoreFileError) -> String {
    format!("left out the end of the file: {cut}")
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
