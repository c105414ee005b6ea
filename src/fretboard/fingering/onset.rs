//! What begins at one moment of a line, and every way for one hand to play it.

use std::collections::HashMap;
use std::rc::Rc;

use super::broken_chord::BrokenBy;
use super::choices::Choices;
use super::chords::{Chords, Wanted};
use super::cost::Cost;
use super::error::{FingeringError, Misfit};
use super::fingered_note::FingeredNote;
use super::hurry::A_MOMENT_S;
use super::line_note::LineNote;
use super::query::FingeringQuery;
use crate::Neck;

/// Notes that begin within this many seconds of the first of them sound together.
pub(super) const TOGETHER_S: f64 = 0.030;

/// Notes that begin together, or one note.
pub(super) struct Onset {
    pub(super) at_s: f64,
    /// Their indices in the line, in the order of time.
    pub(super) notes: Vec<usize>,
    pub(super) choices: Rc<Choices>,
    /// Why they come after the onset before, if they begin with it.
    pub(super) broken_by: Option<BrokenBy>,
}

impl Onset {
    /// The choice that a fingering of the whole line takes here, if it is one.
    pub(super) fn choice_of(&self, line: &[FingeredNote]) -> Option<usize> {
        let mine: Vec<FingeredNote> =
            self.notes.iter().map(|index| line.get(*index).copied()).collect::<Option<_>>()?;
        (0..self.choices.len()).find(|choice| self.choices.notes(*choice) == mine)
    }
}

/// Groups the notes of lines by their onsets.
pub(super) struct Onsets<'a> {
    pub(super) neck: &'a Neck,
    pub(super) query: &'a FingeringQuery,
    pub(super) cost: &'a Cost,
}

/// Notes that begin together, while more may join them.
struct Group {
    begun_s: f64,
    notes: Vec<usize>,
    broken_by: Option<BrokenBy>,
}

impl Onsets<'_> {
    /// The onsets of `line` in the order of time. What begins together and is more than one hand
    /// plays at once comes one after another, as soon as it can.
    pub(super) fn of(&self, line: &[LineNote]) -> Result<Vec<Onset>, FingeringError> {
        let mut chords = Chords::new(self.neck, self.query, self.cost);
        self.check(&chords, line)?;
        let mut order: Vec<usize> = (0..line.len()).collect();
        order.sort_by(|a, b| line[*a].onset_s().total_cmp(&line[*b].onset_s()));
        let mut onsets = Vec::new();
        let mut open: Option<Group> = None;
        for index in order {
            let next = match &mut open {
                Some(group) => group.take(&mut chords, line, index),
                None => Some(Group::of(line, index)),
            };
            if let Some(next) = next {
                onsets.extend(open.replace(next).map(|group| group.close(&mut chords, line)));
            }
        }
        onsets.extend(open.map(|group| group.close(&mut chords, line)));
        Ok(onsets)
    }

    /// Is there a place for every note? The error names all that have none.
    fn check(&self, chords: &Chords<'_>, line: &[LineNote]) -> Result<(), FingeringError> {
        let mut known: HashMap<Wanted, Option<Misfit>> = HashMap::new();
        let misfits: Vec<(usize, Misfit)> = line
            .iter()
            .enumerate()
            .filter_map(|(index, note)| {
                let misfit =
                    known.entry(Wanted::of(note)).or_insert_with(|| self.misfit(chords, note));
                Some((index, (*misfit)?))
            })
            .collect();
        if misfits.is_empty() { Ok(()) } else { Err(FingeringError::Misfits(misfits)) }
    }

    fn misfit(&self, chords: &Chords<'_>, note: &LineNote) -> Option<Misfit> {
        if self.neck.places_of(note.pitch()).next().is_none() {
            return Some(Misfit::NotOnTheNeck);
        }
        if !self.neck.places_of(note.pitch()).any(|place| note.pin().allows(place)) {
            return Some(Misfit::NotWherePinned);
        }
        let mut candidates = chords.candidates(Wanted::of(note));
        candidates.next().is_none().then_some(Misfit::NotWhereAsked)
    }
}

impl Group {
    fn of(line: &[LineNote], index: usize) -> Group {
        Group { begun_s: line[index].onset_s(), notes: vec![index], broken_by: None }
    }

    /// Takes one note more, or else gives the group that it begins.
    fn take(&mut self, chords: &mut Chords<'_>, line: &[LineNote], index: usize) -> Option<Group> {
        if line[index].onset_s() - self.begun_s > TOGETHER_S + A_MOMENT_S {
            return Some(Group::of(line, index));
        }
        self.notes.push(index);
        let broken_by = chords.broken_by(line, &self.notes)?;
        self.notes.pop();
        Some(Group { begun_s: self.begun_s, notes: vec![index], broken_by: Some(broken_by) })
    }

    fn close(self, chords: &mut Chords<'_>, line: &[LineNote]) -> Onset {
        let choices = chords.choices(line, &self.notes);
        let Group { begun_s, notes, broken_by } = self;
        Onset { at_s: begun_s, notes, choices, broken_by }
    }
}
