//! The track that all others follow: title, tempi, meters, keys, chords.

use fretloom_theory::{Bar, KeySignature, Meter, Quarters, Tempo};
use midly::num::u24;
use midly::{MetaMessage, TrackEventKind};

use super::event::Event;
use super::names::Names;
use super::ticks::Ticks;
use crate::score_file::write_error::ScoreWriteError;
use crate::score_file::written_score::WrittenScore;

/// What stands in the first track.
pub(super) fn events<'a>(
    written: &WrittenScore,
    ticks: Ticks,
    names: &'a Names,
) -> Result<Vec<Event<'a>>, ScoreWriteError> {
    let score = &written.score;
    let meta = |from: Quarters, message| Event::new(ticks.at(from), TrackEventKind::Meta(message));
    let mut events = vec![meta(Quarters::ZERO, MetaMessage::TrackName(names.title.as_bytes()))];
    for (from, tempo) in score.tempi.changes() {
        events.push(meta(from, MetaMessage::Tempo(microseconds(tempo)?)));
    }
    let meters = meters(&written.bars()?);
    events.extend(meters.into_iter().map(|(from, meter)| meta(from, time_signature(meter))));
    let keys = score.keys.changes().iter();
    events.extend(keys.map(|(from, key)| meta(*from, key_signature(*key))));
    let sections = written.sections.changes().iter().zip(&names.sections);
    events.extend(
        sections.map(|((from, _), name)| meta(*from, MetaMessage::CuePoint(name.as_bytes()))),
    );
    let chords = score.chords.changes().iter().zip(&names.chords);
    events
        .extend(chords.map(|((from, _), name)| meta(*from, MetaMessage::Marker(name.as_bytes()))));
    Ok(events)
}

/// How long a quarter note lasts.
fn microseconds(tempo: Tempo) -> Result<u24, ScoreWriteError> {
    let microseconds = (tempo.quarter_s() * 1e6).round();
    // The range holds no number that the cast would change.
    let fits = (1.0..=16_777_215.0).contains(&microseconds);
    let number = fits.then_some(microseconds as u32).and_then(u24::try_from);
    number.ok_or(ScoreWriteError::Tempo(tempo))
}

/// Where the meter changes, by the lengths of the bars: a pick-up of a quarter is a bar of 1/4.
fn meters(bars: &[Bar]) -> Vec<(Quarters, Meter)> {
    let mut changes: Vec<(Quarters, Meter)> = Vec::new();
    for bar in bars {
        let meter = if bar.is_whole() { bar.meter } else { of_length(bar).unwrap_or(bar.meter) };
        // Where a bar is as long as no meter says, the next one says again that it begins.
        let is_said = changes.last().is_some_and(|(from, said)| {
            *said == meter
                && bar.from.checked_sub(*from).is_some_and(|since| is_multiple(since, meter))
        });
        if !is_said {
            changes.push((bar.from, meter));
        }
    }
    changes
}

fn is_multiple(length: Quarters, meter: Meter) -> bool {
    length.divided_with_rest(meter.bar()).is_some_and(|(_, rest)| rest.is_zero())
}

/// The meter of a bar of this length, in the notes of its own meter or in finer ones.
fn of_length(bar: &Bar) -> Option<Meter> {
    let kinds =
        [1u8, 2, 4, 8, 16, 32, 64, 128].into_iter().filter(|kind| *kind >= bar.meter.kind());
    kinds.into_iter().find_map(|kind| {
        let unit = Meter::new(1, kind)?.bar();
        let (units, rest) = bar.length.divided_with_rest(unit)?;
        if rest.is_zero() { Meter::new(u8::try_from(units).ok()?, kind) } else { None }
    })
}

/// The meter, with a click every quarter note and a quarter note of eight 32nds.
fn time_signature(meter: Meter) -> MetaMessage<'static> {
    // The lower number is a power of two.
    let power = meter.kind().ilog2() as u8;
    MetaMessage::TimeSignature(meter.units(), power, 24, 8)
}

fn key_signature(key: KeySignature) -> MetaMessage<'static> {
    let is_minor = KeySignature::minor(key.sharps()) == Some(key);
    MetaMessage::KeySignature(key.sharps(), is_minor)
}
