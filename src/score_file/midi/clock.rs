//! What the ticks of a file are in time.

use fretloom_theory::{
    BarPosition, Bars, KeySignature, Meter, Note, Quarters, Score, TempoMap, Timeline,
};

use super::chunks::Division;
use super::track::{Survey, TrackNote};
use crate::score_file::recorded::recorded;

/// What a tick is.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Ticks {
    /// So many are a quarter note; at least one.
    InQuarter(u16),
    /// So many are a second; there are no bars, and tempi change nothing.
    InSecond(f64),
}

/// What the ticks of a file are in time: what one is, and a score without notes in which they are
/// counted.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Clock {
    ticks: Ticks,
    score: Score,
}

impl Clock {
    pub(super) fn new(division: Division, survey: &Survey) -> Clock {
        match division {
            Division::Quarter(ticks) => {
                Clock { ticks: Ticks::InQuarter(ticks), score: in_music(ticks, survey) }
            }
            Division::Frame { frames_per_second, ticks } => {
                // 29 stands for the 30000/1001 frames of NTSC colour television (SMPTE ST 12-1,
                // from memory).
                let frames = match frames_per_second {
                    29 => 30_000.0 / 1001.0,
                    whole => f64::from(whole),
                };
                let ticks = Ticks::InSecond(frames * f64::from(ticks));
                Clock { ticks, score: Score::default() }
            }
        }
    }

    pub(super) fn has_bars(&self) -> bool {
        matches!(self.ticks, Ticks::InQuarter(_))
    }

    /// The score without its notes.
    pub(super) fn into_score(self) -> Score {
        self.score
    }

    /// Seconds from the beginning.
    pub(super) fn seconds_at(&self, tick: u64) -> f64 {
        match self.ticks {
            Ticks::InQuarter(_) => self.score.tempi.seconds_at(self.moment(tick)),
            Ticks::InSecond(ticks) => tick as f64 / ticks,
        }
    }

    /// Bar and beat, where there are any.
    pub(super) fn position(&self, tick: u64) -> Option<BarPosition> {
        if self.has_bars() { self.score.bars.at(self.moment(tick)) } else { None }
    }

    /// The moment in musical time.
    pub(super) fn moment(&self, tick: u64) -> Quarters {
        match self.ticks {
            Ticks::InQuarter(ticks) => moment(tick, ticks),
            Ticks::InSecond(ticks) => {
                let moment = self.score.tempi.moment_at(tick as f64 / ticks);
                moment.unwrap_or(Quarters::ZERO)
            }
        }
    }

    /// A note by the name that is usual in the key; `None` for times that no part has.
    pub(super) fn note(&self, note: &TrackNote) -> Option<Note> {
        let (onset, end) = (self.moment(note.from_tick), self.moment(note.to_tick));
        let key = self.score.keys.at(onset).copied().unwrap_or(KeySignature::NONE);
        let pitch = key.name(note.pitch);
        match self.ticks {
            Ticks::InQuarter(_) => Note::between(onset, end, pitch),
            Ticks::InSecond(_) => {
                let onset_s = self.seconds_at(note.from_tick);
                let duration_s = self.seconds_at(note.to_tick) - onset_s;
                recorded(&self.score.tempi, onset_s, duration_s, pitch)
            }
        }
    }
}

/// The music that ticks of a quarter note count, without its notes.
fn in_music(ticks: u16, survey: &Survey) -> Score {
    Score {
        bars: bars(&over_time(&survey.meters, ticks)),
        tempi: TempoMap::of(&over_time(&survey.tempi, ticks)),
        keys: over_time(&survey.keys, ticks),
        ..Score::default()
    }
}

fn over_time<T: Copy>(events: &[(u64, T)], ticks: u16) -> Timeline<T> {
    Timeline::of(events.iter().map(|(tick, value)| (moment(*tick, ticks), *value)))
}

/// No file is long enough for a tick that is no moment.
fn moment(tick: u64, ticks: u16) -> Quarters {
    Quarters::new(tick, u32::from(ticks)).unwrap_or(Quarters::ZERO)
}

/// Four quarters a bar until something else is said, the default of MIDI.
fn bars(meters: &Timeline<Meter>) -> Bars {
    let mut changes = meters.changes().iter();
    let bars = changes
        .try_fold(Bars::of(Meter::COMMON), |bars, (from, meter)| bars.changing(*from, *meter));
    // Bars of such meters can be counted as far as ticks go.
    bars.unwrap_or(Bars::of(Meter::COMMON))
}
