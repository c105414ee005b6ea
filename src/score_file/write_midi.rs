//! A Standard MIDI File of type 1, written.
//!
//! | track | holds |
//! |---|---|
//! | 1 | the title, tempi, meters and key signatures; chord symbols as markers, sections as cue points |
//! | 2 | the line |
//! | 3 | the drone |
//! | 4 | the click, on channel 10 |
//!
//! There are no programs and no bends: which instrument it sounds like is for whoever opens it.
//! Notes are straight and last as long as they are written, so that a program for notation reads
//! the line as it is. Every moment is a whole number of ticks, unless no number of ticks that the
//! file can hold does that: then each is the nearest on a grid of [`Quarters::GRID`] of a quarter
//! note. A tempo is kept to the microsecond of a quarter note.

mod conductor;
mod event;
mod lanes;
mod names;
mod ticks;
mod track;

use midly::num::u15;
use midly::{Format, Header, Smf, Timing, Track};

use super::write_error::ScoreWriteError;
use super::written_score::WrittenScore;
use names::Names;
use ticks::Ticks;

impl WrittenScore {
    /// The bytes of a Standard MIDI File.
    ///
    /// # Errors
    ///
    /// Where there are too many bars, and where a tempo has no place in such a file: slower than 4
    /// quarter notes a minute, faster than 60,000,000.
    pub fn midi(&self) -> Result<Vec<u8>, ScoreWriteError> {
        let (ticks, end, names) = (Ticks::of(self)?, self.end()?, Names::of(self));
        let end = ticks.at(end);
        let events = [
            conductor::events(self, ticks, &names)?,
            track::line(self, ticks, &names.line),
            track::drone(self, ticks),
            track::click(self, ticks),
        ];
        let tracks: Vec<Track<'_>> =
            events.into_iter().map(|events| event::track(events, end)).collect();
        let timing =
            Timing::Metrical(u15::try_from(ticks.of_quarter()).ok_or(ScoreWriteError::TooFine)?);
        let mut bytes = Vec::new();
        let file = Smf { header: Header { format: Format::Parallel, timing }, tracks };
        // Writing to memory cannot fail but where a track is longer than 4 GiB.
        file.write(&mut bytes).map_err(|_| ScoreWriteError::TooLong)?;
        Ok(bytes)
    }
}
