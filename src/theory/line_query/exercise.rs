//! Exercises: the pattern without a break.

use super::{AtChange, ChordStretch, LineQuery, LineStyle};
use crate::Inversion;
use crate::line::{Begin, Ending, Phrase, Start};
use crate::time::Quarters;

impl LineQuery {
    /// One phrase a chord. A pattern that runs on over chords with one pair is one phrase: there is no
    /// change for it.
    pub(super) fn exercise(&self) -> Vec<Phrase> {
        let goes_on = |one: &ChordStretch, next: &ChordStretch| {
            self.at_change == AtChange::RunsOn && one.pair == next.pair
        };
        let mut index = 0;
        let of_one_pair = self.chords.chunk_by(goes_on).filter_map(|chords| {
            let first = index;
            index += chords.len();
            Some((first, chords.first()?, self.end_of(index - 1)))
        });
        let phrase = |(index, chord, until): (usize, &ChordStretch, Quarters)| {
            let begin = match self.at_change {
                AtChange::RunsOn if index > 0 => Begin::RunsOn,
                AtChange::RunsOn | AtChange::BeginsAgain | AtChange::CutShort => Begin::Again,
            };
            let phrase = self.phrase(chord, chord.from, until);
            let (ending, start) = (self.ending(), self.start_of(index));
            Phrase { begin, ending, start, ..phrase }
        };
        of_one_pair.map(phrase).collect()
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
