//! A way to play a line as tablature.

use fretloom_fretboard::{HandPosition, Tuning};

use super::finger::{FingeredAnswer, WayAnswer};
use crate::picture::{Tab, TabEvent, TabNote};
use crate::score_file::{ReadNote, ReadScore};

impl WayAnswer {
    /// This way as tablature. `score` is the score that it plays; frets and positions count from the
    /// capo.
    #[must_use]
    pub fn tab(&self, tuning: &Tuning, score: &ReadScore) -> Tab {
        let notes = score.notes().zip(&self.notes).enumerate();
        let events = notes.map(|(index, (read, at))| {
            let moment = self.fingering.moment(index).unwrap_or(index);
            event(tuning, moment, read, at)
        });
        Tab::of_line(tuning, events.collect())
    }
}

fn event(
    tuning: &Tuning,
    moment: usize,
    read: ReadNote<'_>,
    fingered: &FingeredAnswer,
) -> TabEvent {
    let capo = tuning.capo().fret().number();
    let from_capo = HandPosition::new(fingered.position.number().saturating_sub(capo));
    TabEvent {
        moment,
        bar: read.source.bar,
        position: from_capo.unwrap_or(HandPosition::FIRST),
        note: TabNote {
            string: fingered.place.string,
            fret: fingered.tab,
            finger: Some(fingered.finger),
        },
    }
}
