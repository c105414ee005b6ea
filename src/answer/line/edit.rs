//! A line that its player has changed note by note.

use fretloom_fretboard::{Neck, Pin, Place, StringNumber};
use fretloom_theory::{NoteEdit, PhraseNote, Quarters, Stroke};

use super::answer::{LineAnswer, told};
use super::ground::LineGround;
use super::played::LineWay;
use super::slurs::slur_between;
use crate::answer::refusal::Refusal;

/// A change of one note of a line that its player makes afterwards.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LineEdit {
    /// Another pitch, length or weight.
    Note(NoteEdit),
    /// It lies on this string, or wherever it lies best.
    String(NoteAt, Option<StringNumber>),
    /// It is slurred to, or is picked again.
    Slur(NoteAt),
}

/// A note by its place in time.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoteAt {
    /// When it begins.
    pub onset: Quarters,
    /// Which of the notes that begin then, 0 for the lowest.
    pub voice: usize,
}

impl NoteAt {
    /// The index of the note among the notes of a line, if it is there.
    #[must_use]
    pub fn index_in(self, mut onsets: impl Iterator<Item = Quarters>) -> Option<usize> {
        let first = onsets.position(|onset| onset == self.onset)?;
        let has_voice =
            self.voice == 0 || onsets.nth(self.voice - 1).is_some_and(|onset| onset == self.onset);
        has_voice.then_some(first + self.voice)
    }
}

impl LineAnswer {
    /// The line with changes, one after the other.
    ///
    /// A change that cannot be made where it stands has no effect and is
    /// [counted](Self::unmade_edits): so phrases may be made anew under changes that were made before.
    /// Bars without a change are played where they were, as far as a hand can.
    ///
    /// # Errors
    ///
    /// Where no hand can play the line so.
    pub fn edited(
        &self,
        ground: &LineGround,
        neck: &Neck,
        edits: &[LineEdit],
    ) -> Result<LineAnswer, Refusal> {
        if edits.is_empty() {
            return Ok(self.clone());
        }
        let (query, reach) = (ground.query(&self.question)?, ground.reach());
        let of_notes: Vec<NoteEdit> = edits.iter().filter_map(LineEdit::of_note).collect();
        let mut notes: Vec<PhraseNote> = self.notes.iter().map(|told| told.note).collect();
        let mut unmade_edits = 0;
        for edit in of_notes {
            let changed = query.edited(self.made_of(), &notes, &[edit], &reach);
            unmade_edits += usize::from(changed == notes);
            notes = changed;
        }
        let pins = pins(neck, ground, &notes, edits);
        let (tuning, question) = (self.tuning.clone(), &self.question);
        let (made_of, told) = (self.made_of().to_vec(), told(question, self.made_of(), &notes));
        let mut ways = self.kept_ways(neck, ground, &told, &pins, edits);
        if ways.is_empty() {
            ways = LineWay::all(neck, question, ground, &told, &pins)?;
        }
        let mut edited = LineAnswer::played(tuning, question, made_of, told, ways);
        edited.unmade_edits = unmade_edits;
        for edit in edits {
            if let LineEdit::Slur(at) = edit
                && let Some(index) = at.index_in(notes.iter().map(|note| note.onset))
            {
                edited.turn_slur(index);
            }
        }
        Ok(edited)
    }

    /// The places at which a note may lie, by the number of the string.
    #[must_use]
    pub fn places(&self, ground: &LineGround, neck: &Neck, index: usize) -> Vec<Place> {
        let Some(told) = self.notes.get(index) else { return Vec::new() };
        let mut places = places_in(neck, ground, &told.note);
        places.sort_by_key(|place| place.string);
        places
    }

    /// The note is slurred to in every way in which a finger can sound it, or is picked.
    fn turn_slur(&mut self, index: usize) {
        let picked: Vec<Vec<Option<Stroke>>> =
            self.ways.iter().map(|way| self.strokes_of(way)).collect();
        for (way, picked) in self.ways.iter_mut().zip(picked) {
            let two = index.checked_sub(1).and_then(|before| way.way.notes.get(before..=index));
            let slur = match (way.slurs.get(index), two) {
                (Some(None), Some([from, to])) => slur_between(from, to),
                _ => None,
            };
            if let Some(place) = way.slurs.get_mut(index) {
                *place = slur;
            }
            if let Some(stroke) = way.strokes.get_mut(index) {
                *stroke = if slur.is_some() { None } else { picked.get(index).copied().flatten() };
            }
        }
    }

    /// Every note picked.
    fn strokes_of(&self, way: &LineWay) -> Vec<Option<Stroke>> {
        let places = self.notes.iter().zip(&way.way.notes);
        let picked: Vec<_> = places.map(|(told, at)| (told.note.onset, at.place.string)).collect();
        let strokes = self.question.picking.strokes(self.question.chords.bars(), &picked);
        strokes.into_iter().map(Some).collect()
    }
}

impl LineEdit {
    const fn of_note(&self) -> Option<NoteEdit> {
        match self {
            LineEdit::Note(edit) => Some(*edit),
            LineEdit::String(..) | LineEdit::Slur(_) => None,
        }
    }
}

/// On which strings notes are settled. Where a note is not on its string any more, it is free.
fn pins(neck: &Neck, ground: &LineGround, notes: &[PhraseNote], edits: &[LineEdit]) -> Vec<Pin> {
    let mut pins = vec![Pin::default(); notes.len()];
    for edit in edits {
        let LineEdit::String(at, string) = edit else { continue };
        let index = at.index_in(notes.iter().map(|note| note.onset));
        let Some((index, note)) = index.and_then(|at| Some((at, notes.get(at)?))) else {
            continue;
        };
        let is_there = |string: &StringNumber| {
            places_in(neck, ground, note).iter().any(|place| place.string == *string)
        };
        if let Some(pin) = pins.get_mut(index) {
            *pin = Pin { string: string.filter(is_there), fret: None };
        }
    }
    pins
}

fn places_in(neck: &Neck, ground: &LineGround, note: &PhraseNote) -> Vec<Place> {
    ground.of_phrase(note.phrase).places_of(neck, note.pitch, note.role)
}
