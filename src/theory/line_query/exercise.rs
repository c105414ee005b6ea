//! Exercises: the pattern without a break.

use super::{AtChange, LineQuery, LineStyle};
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
            let phrase = self.phrase(chord, chord.from, self.end_of(index));
            let (ending, start) = (self.ending(), self.start_of(index));
            Phrase { begin, ending, start, ..phrase }
        };
        self.chords.iter().enumerate().map(phrase).collect()
    }

    /// How a phrase ends that does not say so.
    pub(super) fn ending(&self) -> Ending {
        match (self.style, self.at_change) {
            (LineStyle::Exercise, AtChange::CutShort) => Ending::WholeGroup,
            (LineStyle::Exercise, AtChange::RunsOn | AtChange::BeginsAgain)
            | (LineStyle::Music, _) => Ending::Anywhere,
        }
    }

    /// Where the phrase with this index begins, if nothing is said of it.
    pub(super) fn start_of(&self, index: usize) -> Start {
        match (self.start, self.style) {
            (_, _) if index > 0 => Start::FromBefore,
            (Some(start), _) => start,
            (None, LineStyle::Exercise) => Start::Lowest(Inversion::Root),
            (None, LineStyle::Music) => Start::FromBefore,
        }
    }
}
