//! A line, ready to be read.

use super::candidate::Candidate;
use super::field::Field;
use super::sounded::Sounded;
use crate::PitchClass;

/// A line, ready to be read: its notes, the fields in which they begin, and the pairs that may
/// explain those.
pub(super) struct Line<'a> {
    pub(super) notes: &'a [Sounded],
    pub(super) fields: &'a [Field],
    /// Those of each field.
    pub(super) candidates: &'a [Vec<Candidate>],
    /// The field of each note.
    pub(super) field_of: Vec<usize>,
}

impl<'a> Line<'a> {
    pub(super) fn new(
        notes: &'a [Sounded],
        fields: &'a [Field],
        candidates: &'a [Vec<Candidate>],
    ) -> Line<'a> {
        let indices = fields.iter().enumerate();
        let field_of = indices.flat_map(|(at, field)| field.notes.clone().map(move |_| at));
        Line { notes, fields, candidates, field_of: field_of.collect() }
    }

    /// What a note sounds as.
    pub(super) fn class(&self, note: usize) -> PitchClass {
        self.notes[note].pitch.pitch_class()
    }
}
