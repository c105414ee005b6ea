//! A line, ready to be read.

use super::candidate::Candidate;
use super::field::Field;
use super::readings::as_short;
use super::sounded::Sounded;
use crate::{Pitch, PitchClass};

/// A line, ready to be read: its notes, the fields in which they begin, and the pairs that may
/// explain those.
pub(super) struct Line<'a> {
    pub(super) notes: &'a [Sounded],
    pub(super) fields: &'a [Field],
    /// Those of each field.
    pub(super) candidates: &'a [Vec<Candidate>],
    /// The field of each note.
    pub(super) field_of: Vec<usize>,
    /// Do the notes of a field by themselves show a pair?
    pub(super) evident: Vec<bool>,
}

impl<'a> Line<'a> {
    pub(super) fn new(
        notes: &'a [Sounded],
        fields: &'a [Field],
        candidates: &'a [Vec<Candidate>],
    ) -> Line<'a> {
        let indices = fields.iter().enumerate();
        let field_of = indices.flat_map(|(at, field)| field.notes.clone().map(move |_| at));
        let evident = |(field, candidates): (&Field, &Vec<Candidate>)| {
            let pitches: Vec<Pitch> =
                field.own_notes(notes).iter().map(|note| note.pitch).collect();
            let next = notes.get(field.notes.end).map(|note| note.pitch);
            let shows = |candidate: &Candidate| as_short(candidate, &pitches, next, None);
            !field.stacked
                && candidates.iter().any(|candidate| candidate.is_usual && shows(candidate))
        };
        let evident = fields.iter().zip(candidates).map(evident).collect();
        Line { notes, fields, candidates, field_of: field_of.collect(), evident }
    }

    /// What a note sounds as.
    pub(super) fn class(&self, note: usize) -> PitchClass {
        self.notes[note].pitch.pitch_class()
    }
}
