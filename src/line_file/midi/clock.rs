//! From ticks to seconds, bars and beats.

use super::bars::BarMap;
use super::chunks::Division;
use super::track::{Survey, Tempo};
use crate::line_file::tempo::{TempoChange, TempoMap};

/// What the ticks of a file are in time.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Clock {
    /// Ticks are parts of a quarter note.
    Music {
        /// How many are one.
        ticks_per_quarter: f64,
        /// How long it is.
        tempi: TempoMap,
        /// Where the bars are.
        bars: BarMap,
    },
    /// Ticks are parts of a second; there are no bars, and tempi change nothing.
    Film {
        /// How many are one.
        ticks_per_second: f64,
    },
}

impl Clock {
    pub(super) fn new(division: Division, survey: &Survey) -> Clock {
        match division {
            Division::Quarter(ticks) => Clock::Music {
                ticks_per_quarter: f64::from(ticks),
                tempi: tempo_map(&survey.tempi, f64::from(ticks)),
                bars: BarMap::of(survey.signatures.clone(), ticks),
            },
            Division::Frame { frames_per_second, ticks } => {
                // 29 stands for the 30000/1001 frames of NTSC colour television (SMPTE ST 12-1,
                // from memory).
                let frames = match frames_per_second {
                    29 => 30_000.0 / 1001.0,
                    whole => f64::from(whole),
                };
                Clock::Film { ticks_per_second: frames * f64::from(ticks) }
            }
        }
    }

    pub(super) fn has_bars(&self) -> bool {
        matches!(self, Clock::Music { .. })
    }

    /// Seconds from the beginning.
    pub(super) fn seconds_at(&self, tick: u64) -> f64 {
        match self {
            Clock::Music { ticks_per_quarter, tempi, .. } => {
                tempi.seconds_at(tick as f64 / ticks_per_quarter)
            }
            Clock::Film { ticks_per_second } => tick as f64 / ticks_per_second,
        }
    }

    /// Bar and beat, both counted from 1, where there are any.
    pub(super) fn bar_at(&self, tick: u64) -> Option<(u64, f64)> {
        match self {
            Clock::Music { bars, .. } => Some(bars.at(tick)),
            Clock::Film { .. } => None,
        }
    }
}

fn tempo_map(tempi: &[Tempo], ticks_per_quarter: f64) -> TempoMap {
    let change = |tempo: &Tempo| TempoChange {
        at_quarter: tempo.at_tick as f64 / ticks_per_quarter,
        quarter_s: f64::from(tempo.quarter_us) / 1e6,
    };
    TempoMap::of(tempi.iter().map(change).collect())
}
