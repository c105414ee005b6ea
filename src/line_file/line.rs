//! The line that was read.

use fretloom_fretboard::Pin;
use fretloom_theory::Pitch;

use super::{At, LONGEST_LINE_S, LineError, MOST_NOTES, Whereabouts};

/// A note with the place in its file.
#[derive(Clone, PartialEq, Debug)]
pub struct WrittenNote {
    /// When it begins, in seconds from the beginning of the line.
    pub onset_s: f64,
    /// How long it sounds, in seconds.
    pub duration_s: f64,
    /// What sounds.
    pub pitch: Pitch,
    /// The place that the file settles.
    pub pin: Pin,
    /// Which bar it begins in, counted from 0: those of the file, or two seconds each where the
    /// file has none.
    pub bar: u64,
    /// Where it stands in the file.
    pub stands: Whereabouts,
}

/// From where the pinned frets of a file are counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FretsFrom {
    /// From the nut, as the frets of a neck are numbered.
    Nut,
    /// From the capo, as tablature is written.
    Capo,
}

/// Where the bars of a line come from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Bars {
    Written,
    TwoSeconds,
}

/// A line of notes, checked: not empty, times finite and not negative, no more than a day.
///
/// Notes stand in the order given: that of the list in JSON, else that of time.
#[derive(Clone, PartialEq, Debug)]
pub struct Line {
    notes: Vec<WrittenNote>,
    bars: Bars,
    frets_from: FretsFrom,
    remarks: Vec<String>,
}

impl Line {
    /// How long a bar is, in seconds, where a file has none: four beats at 120.
    pub const BAR_S: f64 = 2.0;

    /// A line of notes, which are checked.
    pub(super) fn of(notes: Vec<WrittenNote>) -> Result<Line, LineError> {
        if notes.is_empty() {
            return Err(LineError::whole("it holds no notes", "at least one note"));
        }
        if notes.len() > MOST_NOTES {
            return Err(too_many());
        }
        notes.iter().try_for_each(check)?;
        let (bars, frets_from) = (Bars::Written, FretsFrom::Nut);
        Ok(Line { notes, bars, frets_from, remarks: Vec::new() })
    }

    pub(super) fn with_bars(self, bars: Bars) -> Line {
        Line { bars, ..self }
    }

    pub(super) fn counting_frets_from(self, frets_from: FretsFrom) -> Line {
        Line { frets_from, ..self }
    }

    pub(super) fn saying(self, remarks: Vec<String>) -> Line {
        Line { remarks, ..self }
    }

    /// The same line with nothing settled about any place.
    #[must_use]
    pub fn without_pins(mut self) -> Line {
        self.notes.iter_mut().for_each(|written| written.pin = Pin::default());
        self
    }

    /// The notes, at least one.
    #[must_use]
    pub fn notes(&self) -> &[WrittenNote] {
        &self.notes
    }

    /// Are the bars those of the file? Else each is [`Line::BAR_S`] long.
    #[must_use]
    pub fn has_written_bars(&self) -> bool {
        self.bars == Bars::Written
    }

    /// From where pinned frets are counted.
    #[must_use]
    pub fn frets_from(&self) -> FretsFrom {
        self.frets_from
    }

    /// What a player should know of how the file was read, a sentence each.
    #[must_use]
    pub fn remarks(&self) -> &[String] {
        &self.remarks
    }
}

/// What is said of a line with more than [`MOST_NOTES`].
pub(super) fn too_many() -> LineError {
    LineError::whole("it holds too many notes", format!("at most {MOST_NOTES} notes"))
}

fn check(written: &WrittenNote) -> Result<(), LineError> {
    let end_s = written.onset_s + written.duration_s;
    let are_times = written.onset_s >= 0.0 && written.duration_s >= 0.0;
    if are_times && end_s <= LONGEST_LINE_S {
        return Ok(());
    }
    let wrong = format!("{} ends {end_s:.0} seconds after the beginning", written.stands);
    Err(LineError::new(At::Whole, wrong, "a line of at most a day"))
}
