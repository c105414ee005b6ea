//! A line, ready to be read.

use super::candidate::Candidate;
use super::field::Field;
use super::readings::as_short;
use super::sounded::Sounded;
use crate::{Pitch, PitchClass, Quarters};

/// A line, ready to be read: its notes, the fields in which they begin, and the pairs that may
/// explain those.
pub(super) struct Line<'a> {
    pub(super) notes: &'a [Sounded],
    pub(super) fields: &'a [Field],
    /// Those of each field.
    pub(super) candidates: &'a [Vec<Candidate>],
    /// The field of each note.
    pub(super) field_of: Vec<usize>,
    /// What lies before each note.
    pub(super) rests: Vec<RestBefore>,
    /// Do the notes of a field by themselves show a pair?
    pub(super) evident: Vec<bool>,
}

/// How long nothing sounds between a note and the one before it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) enum RestBefore {
    /// Less than an eighth.
    None,
    /// An eighth, less than a quarter.
    Eighth,
    /// A quarter, less than a half note.
    Quarter,
    /// A half note or more, which ends a group.
    Silence,
}

impl RestBefore {
    fn of(notes: &[Sounded], note: usize) -> RestBefore {
        let before = note.checked_sub(1).and_then(|before| notes.get(before));
        let rest = before.and_then(|before| notes.get(note)?.onset.checked_sub(before.end));
        match rest {
            Some(rest) if rest >= Quarters::whole(2) => RestBefore::Silence,
            Some(rest) if rest >= Quarters::ONE => RestBefore::Quarter,
            Some(rest) if rest >= Quarters::EIGHTH => RestBefore::Eighth,
            Some(_) | None => RestBefore::None,
        }
    }
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
        let rests = (0..notes.len()).map(|note| RestBefore::of(notes, note)).collect();
        Line { notes, fields, candidates, field_of: field_of.collect(), rests, evident }
    }

    /// What a note sounds as.
    pub(super) fn class(&self, note: usize) -> PitchClass {
        self.notes[note].pitch.pitch_class()
    }
}
