//! A track of a Standard MIDI File, formats 0 and 1.
//!
//! The tempo map and the bars come from all tracks together. Of overlapping notes of one pitch the
//! one that began first ends first; a note that is never ended ends with its track. Notes on
//! channel 10 are drums and no pitches: they are left out.

mod bars;
mod chunks;
mod clock;
mod track;

use fretloom_fretboard::Pin;

use super::line::Bars;
use super::{At, Line, LineError, Whereabouts, WrittenNote};
use chunks::{Chunk, chunks};
use clock::Clock;
use track::{Survey, TrackNote};

/// Reads the chosen track, counted from 1; else the first with notes.
pub(super) fn read(bytes: &[u8], chosen: Option<usize>) -> Result<Line, LineError> {
    let (header, tracks) = chunks(bytes)?;
    let mut survey = Survey::default();
    for (track, number) in tracks.iter().zip(1..) {
        survey.add(*track, number)?;
    }
    let number = choose(&survey, chosen)?;
    let track = tracks.get(number - 1).copied().unwrap_or_default();
    let clock = Clock::new(header.division, &survey);
    let notes = track::notes(track, number)?;
    let written = notes.iter().map(|note| clock.written(note, number)).collect();
    let bars = if clock.has_bars() { Bars::Written } else { Bars::TwoSeconds };
    Ok(Line::of(written)?.with_bars(bars).saying(remarks(&survey, number, chosen)))
}

/// The track that is meant.
fn choose(survey: &Survey, chosen: Option<usize>) -> Result<usize, LineError> {
    let with_notes = survey.tracks_with_notes();
    let Some(first) = with_notes.first() else {
        return Err(LineError::whole("no track has notes", "at least one note"));
    };
    match chosen {
        None => Ok(*first),
        Some(number) if with_notes.contains(&number) => Ok(number),
        Some(number) => {
            let listed = alternatives(&with_notes);
            let wrong = format!("track {number} has no notes");
            Err(LineError::new(At::Whole, wrong, format!("track {listed}")))
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

impl Clock {
    fn written(&self, note: &TrackNote, track: usize) -> WrittenNote {
        let onset_s = self.seconds_at(note.from_tick);
        let duration_s = self.seconds_at(note.to_tick) - onset_s;
        let bar = self.bar_at(note.from_tick);
        let stands = Whereabouts::InTrack { track, bar, onset_s };
        // The saturating cast serves: a time beyond a day is refused by the line.
        let counted = bar.map_or((onset_s / Line::BAR_S) as u64, |(bar, _)| bar - 1);
        let (pitch, pin) = (note.pitch, Pin::default());
        WrittenNote { onset_s, duration_s, pitch, pin, bar: counted, stands }
    }
}

#[cfg(test)]
mod tests;
