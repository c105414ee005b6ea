//! Exercises: the pattern without a break.

use super::{AtChange, LineQuery};
use crate::Inversion;
use crate::line::{Begin, Ending, Phrase, Start};

impl LineQuery {
    /// One phrase a chord.
    pub(super) fn exercise(&self) -> Vec<Phrase> {
        let phrase = |(index, chord)| {
            let begin = match self.at_change {
                AtChange::RunsOn if index > 0 => Begin::RunsOn,
                AtChange::RunsOn | AtChange::BeginsAgain | AtChange::CutShort => Begin::Again,
            };
            let ending = match self.at_change {
                AtChange::CutShort => Ending::WholeGroup,
                AtChange::RunsOn | AtChange::BeginsAgain => Ending::Anywhere,
            };
            let first = self.start.unwrap_or(Start::Lowest(Inversion::Root));
            let start = if index == 0 { first } else { Start::FromBefore };
            let phrase = self.phrase(chord, chord.from, self.end_of(index));
            Phrase { begin, ending, start, ..phrase }
        };
        self.chords.iter().enumerate().map(phrase).collect()
    }
}
