//! Lines: phrases made of pairs, note by note.
//!
//! A [`Phrase`] says what is played over a stretch of time: whose triads, in which pattern, rhythm
//! and direction, and where it goes. A [`Line`] is what comes out of phrases, one after another, with
//! each note's place in its pattern, so that nothing about it has to be guessed later. Strings and
//! frets are not here: a line takes the set of pitches that it may use, its [`Reach`].

mod approach;
mod course;
mod error;
mod event;
mod free_notes;
mod group;
mod landing;
mod limits;
mod made;
mod note;
mod phrase;
mod reach;
mod rung;
mod slots;
mod walk;

pub use error::LineError;
pub use free_notes::{FreeNote, FreeNotes};
pub use note::{PhraseNote, Role};
pub use phrase::{Approach, Begin, Ending, Link, NotesFrom, Phrase, Start, Target, Timing, Travel};
pub use reach::Reach;

use limits::LONGEST;
use made::Made;

use crate::time::Quarters;
use crate::{Pitch, Rest};

/// Notes made of phrases, in order of time.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordScale, Line, Phrase, Quarters, Reach, SpelledTriad, TriadPair};
/// let over = ChordScale::over("Dm7".parse()?, "D Dorian".parse()?);
/// let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(f, g).unwrap();
/// let phrase = Phrase::new(Quarters::ZERO, Quarters::whole(4), over, pair);
/// let line = Line::make(&[phrase], &Reach::between(53, 80)).unwrap();
/// let midi: Vec<u8> = line.notes().iter().map(|note| note.pitch.midi()).collect();
/// assert_eq!(midi, [53, 57, 60, 55, 59, 62, 57, 60]); // F A C, G B D, A C
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Line {
    notes: Vec<PhraseNote>,
    turns: usize,
}

impl Line {
    /// The most notes that a line has.
    pub const LONGEST: usize = LONGEST;

    /// Plays phrases one after another, each within its own time, on the notes that may be used: those
    /// of the phrase, where it has some of its own.
    ///
    /// # Errors
    ///
    /// Where a phrase cannot be played on these notes, or has no room for what it is to do: the
    /// condition that fails, and what would help.
    pub fn make(phrases: &[Phrase], reach: &Reach) -> Result<Line, LineError> {
        let mut made = Made::default();
        for (index, phrase) in phrases.iter().enumerate() {
            made.play(index, phrase, phrase.reach.as_ref().unwrap_or(reach))?;
        }
        let (notes, turns) = made.finished()?;
        Ok(Line { notes, turns })
    }

    /// Its notes, in order of time; what sounds together from the lowest up.
    #[must_use]
    pub fn notes(&self) -> &[PhraseNote] {
        &self.notes
    }

    /// How many times it turned at the ends of what may be used.
    #[must_use]
    pub fn turns(&self) -> usize {
        self.turns
    }

    /// When its last note ends.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.notes.iter().map(PhraseNote::end).max().unwrap_or_default()
    }

    /// The lowest and the highest of its notes; `None` where it has none.
    #[must_use]
    pub fn range(&self) -> Option<(Pitch, Pitch)> {
        let pitches = || self.notes.iter().map(|note| note.pitch);
        pitches().min().zip(pitches().max())
    }

    /// The same line without what sounds in one of these rests, which come in order of time: a note that
    /// begins there is left out, and one that sounds into it ends with its beginning.
    #[must_use]
    pub fn resting(self, rests: &[Rest]) -> Line {
        let until = |note: PhraseNote| {
            let next = rests.partition_point(|rest| rest.to <= note.onset);
            let Some(rest) = rests.get(next).filter(|rest| rest.from < note.end()) else {
                return Some(note);
            };
            let duration = rest.from.checked_sub(note.onset).filter(|left| !left.is_zero())?;
            Some(PhraseNote { duration, ..note })
        };
        Line { notes: self.notes.into_iter().filter_map(until).collect(), ..self }
    }

    /// The same line so many semitones higher; `None` where a note would be none.
    #[must_use]
    pub fn up(&self, semitones: i32) -> Option<Line> {
        let moved =
            |note: &PhraseNote| Some(PhraseNote { pitch: note.pitch.up(semitones)?, ..*note });
        let notes = self.notes.iter().map(moved).collect::<Option<_>>()?;
        Some(Line { notes, turns: self.turns })
    }
}

#[cfg(test)]
mod tests;
