//! A score as it is to be written, and what stands beside its notes.

mod bars;
mod joined;

use fretloom_fretboard::{Finger, Place, Tuning};
use fretloom_theory::{
    Bar, Click, DroneChord, Note, Part, Quarters, Score, Slur, Stroke, Swing, Timeline,
};

use super::write_error::ScoreWriteError;

/// A score as it is to be written to a file: one part, and what stands beside its notes.
///
/// It is a plain record, made by whoever has music to hand on. Pitches are as they sound, and the
/// score is straight: swing is how it is played.
#[derive(Clone, PartialEq, Debug)]
pub struct WrittenScore {
    /// The music; of its parts the first is written. It has no grace notes.
    pub score: Score,
    /// What the part is played on, with its capo.
    pub tuning: Tuning,
    /// One for each note, in the order of [`Part::notes`].
    pub notes: Vec<WrittenNote>,
    /// Where something new begins, and what it is called: another key.
    pub sections: Timeline<String>,
    /// How its eighths are played.
    pub swing: Swing,
    /// What sounds below the line, or above it, for a file that is played.
    pub drone: Vec<DroneChord>,
    /// What is beaten, likewise.
    pub click: Vec<Click>,
}

/// What stands beside a note.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub struct WrittenNote {
    /// Where it is played.
    pub place: Option<Place>,
    /// With which finger.
    pub finger: Option<Finger>,
    /// How it is slurred to from the note before.
    pub slur: Option<Slur>,
    /// Which way the pick goes.
    pub stroke: Option<Stroke>,
    /// Is it accented?
    pub accent: bool,
}

impl WrittenScore {
    /// A score with nothing beside its notes.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::score_file::{self, Choice, WrittenScore};
    /// use fretloom_fretboard::Tuning;
    /// use fretloom_theory::{Note, Part, Quarters, Score};
    ///
    /// let note = Note::new(Quarters::ONE, Quarters::EIGHTH, "B3".parse().unwrap()).unwrap();
    /// let score = Score { parts: vec![Part::new([note])], ..Score::default() };
    /// let written = WrittenScore::of(score, Tuning::read("EADGBE").unwrap());
    /// let read = score_file::read(&written.midi().unwrap(), &Choice::default()).unwrap();
    /// assert_eq!(read.score().parts[0].notes()[0].onset(), Quarters::ONE);
    /// ```
    #[must_use]
    pub fn of(score: Score, tuning: Tuning) -> WrittenScore {
        let count = score.parts.first().map_or(0, |part| part.notes().len());
        let (sections, swing) = (Timeline::default(), Swing::STRAIGHT);
        let (notes, drone, click) = (vec![WrittenNote::default(); count], Vec::new(), Vec::new());
        WrittenScore { score, tuning, notes, sections, swing, drone, click }
    }

    pub(super) fn part(&self) -> Option<&Part> {
        self.score.parts.first()
    }

    /// The notes of the part, each with what stands beside it.
    pub(crate) fn played(&self) -> impl Iterator<Item = (&Note, WrittenNote)> {
        let notes = self.part().map_or(&[][..], Part::notes);
        let beside = self.notes.iter().copied().chain(std::iter::repeat(WrittenNote::default()));
        notes.iter().zip(beside)
    }

    /// The bars that are written: as many as the music takes, at least one.
    pub(super) fn bars(&self) -> Result<Vec<Bar>, ScoreWriteError> {
        bars::until(&self.score.bars, self.score.end())
    }

    /// When the last bar ends.
    pub(super) fn end(&self) -> Result<Quarters, ScoreWriteError> {
        let last = self.bars()?.pop();
        let end = last.and_then(|bar| bar.from.checked_add(bar.length));
        end.ok_or(ScoreWriteError::TooLong)
    }
}
