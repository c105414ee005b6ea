//! Parts.

use super::note::{Note, Voice};
use crate::time::Quarters;

/// What one player plays: notes, which may be chords, overlap, and belong to several voices.
///
/// Notes keep the order in which they are given, which need not be that of time, so that what
/// belongs beside a note (a string, a fret, a line of a file) can be kept under its index. Rests
/// are what lies between the notes; they are asked for and not stored, so they never contradict
/// them.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Note, Part, Quarters, Rest};
/// let at = Quarters::whole;
/// let note = |onset| Note::new(at(onset), at(1), "A3".parse().unwrap()).unwrap();
/// let part = Part::new([note(1), note(2)]).named("Guitar").lasting(at(4));
/// assert_eq!(part.rests(), [Rest { from: at(0), to: at(1) }, Rest { from: at(3), to: at(4) }]);
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Part {
    name: Option<String>,
    notes: Vec<Note>,
    end: Quarters,
}

/// A stretch in which nothing sounds.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Rest {
    /// When it begins.
    pub from: Quarters,
    /// When it ends, which is later.
    pub to: Quarters,
}

impl Part {
    /// A part of these notes, which ends with the last of them.
    #[must_use]
    pub fn new(notes: impl IntoIterator<Item = Note>) -> Part {
        let notes: Vec<Note> = notes.into_iter().collect();
        let end = notes.iter().map(Note::end).max().unwrap_or(Quarters::ZERO);
        Part { name: None, notes, end }
    }

    /// The same part with a name.
    #[must_use]
    pub fn named(self, name: impl Into<String>) -> Part {
        Part { name: Some(name.into()), ..self }
    }

    /// The same part, lasting until a moment; never shorter than its notes.
    #[must_use]
    pub fn lasting(self, until: Quarters) -> Part {
        Part { end: self.end.max(until), ..self }
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> Option<&str> {
        self.name.as_deref()
    }

    /// Its notes in the order given.
    #[must_use]
    pub fn notes(&self) -> &[Note] {
        &self.notes
    }

    /// When it ends; after the last note where rests follow it.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.end
    }

    /// The indices of its notes in the order of their onsets, grace notes before their main note;
    /// what begins together stays in the order given.
    #[must_use]
    pub fn by_time(&self) -> Vec<usize> {
        let mut indices: Vec<usize> = (0..self.notes.len()).collect();
        indices.sort_by_key(|index| self.notes.get(*index).map(when));
        indices
    }

    /// Its voices in order.
    #[must_use]
    pub fn voices(&self) -> Vec<Voice> {
        let mut voices: Vec<Voice> = self.notes.iter().map(Note::voice).collect();
        voices.sort_unstable();
        voices.dedup();
        voices
    }

    /// Where none of its notes sounds.
    #[must_use]
    pub fn rests(&self) -> Vec<Rest> {
        self.between(self.notes.iter())
    }

    /// Where no note of a voice sounds.
    #[must_use]
    pub fn rests_in(&self, voice: Voice) -> Vec<Rest> {
        self.between(self.notes.iter().filter(|note| note.voice() == voice))
    }

    fn between<'a>(&'a self, notes: impl Iterator<Item = &'a Note>) -> Vec<Rest> {
        let mut sounding: Vec<(Quarters, Quarters)> =
            notes.map(|note| (note.onset(), note.end())).collect();
        sounding.sort_unstable();
        sounding.push((self.end, self.end));
        let mut silent_from = Quarters::ZERO;
        let mut rests = Vec::new();
        for (onset, end) in sounding {
            if silent_from < onset {
                rests.push(Rest { from: silent_from, to: onset });
            }
            silent_from = silent_from.max(end);
        }
        rests
    }
}

/// What orders notes: a grace note with more steps to go comes first, a main note last.
fn when(note: &Note) -> (Quarters, std::cmp::Reverse<u32>) {
    let steps = note.grace().map_or(0, |grace| grace.steps());
    (note.onset(), std::cmp::Reverse(steps))
}
